#include "outputs.h"

#include "image.h"

enum use outputs_use(uint8_t output)
{
    uint8_t chips = image_bytes[AT_CHIPS];
    if (output < CHAIN_BASE ? output > CAPACITY_PINS : output - CHAIN_BASE >= 8 * chips)
        return USE_MISSING;
    if (output < 2)
        return USE_OTHER;
    for (uint8_t i = 0; chips && i < 4; i++)
        if (image_bytes[HEADER_BYTES + i] == output)
            return USE_OTHER;
    if (!image_length)
        return USE_FREE;
    const uint8_t *lamp = image_bytes + lamps_at(image_ram);
    for (uint8_t i = image_bytes[AT_LAMPS]; i; i--, lamp += LAMP_BYTES)
        if (*lamp == output)
            return USE_LAMP;
    const uint8_t *input = image_bytes + inputs_at(image_ram);
    for (uint8_t i = image_bytes[AT_INPUTS]; i; i--, input += INPUT_BYTES)
        if (*input == output)
            return USE_OTHER;
    return USE_FREE;
}

static uint8_t pulsed;
/* The tick after a request may be late by it: the pulse begins with the one
 * after that, so that it is no shorter than it should be. */
static enum { IDLE, LOW_SOON, HIGH_SOON, LOW_NEXT, HIGH_NEXT, DRIVEN } phase;
static uint16_t left;

static void put_bit(bool high)
{
    hal_output(pulsed, high);
    hal_outputs_commit();
}

void pulse_begin(uint8_t output, bool high, uint16_t ms)
{
    pulse_end();
    pulsed = output;
    left = ms;
    phase = high ? HIGH_SOON : LOW_SOON;
}

void pulse_end(void)
{
    if (phase == DRIVEN && pulsed < CHAIN_BASE)
        hal_pin_free(pulsed);
    else if (phase == DRIVEN)
        put_bit(false);
    phase = IDLE;
}

void pulse_forget(void) { phase = IDLE; }
bool pulse_on(void) { return phase != IDLE; }

void pulse_tick(void)
{
    switch (phase) {
    case IDLE: return;
    case LOW_SOON: phase = LOW_NEXT; return;
    case HIGH_SOON: phase = HIGH_NEXT; return;
    case DRIVEN:
        if (!--left)
            pulse_end();
        return;
    default: break;
    }
    if (pulsed < CHAIN_BASE)
        hal_pin_drive(pulsed, phase == HIGH_NEXT);
    else
        put_bit(phase == HIGH_NEXT);
    phase = DRIVEN;
}
