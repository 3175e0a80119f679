#include "chain.h"

#include <string.h>

#include "bits.h"

struct wire {
    volatile uint8_t *port;
    uint8_t mask;
};

static uint8_t chips;
static bool changed;
static uint8_t bits[CAPACITY_CHIPS];
static struct wire data, clock, latch, enable;

static struct wire wire(uint8_t pin)
{
    struct wire w;
    w.port = pins_output_register(pin, &w.mask);
    return w;
}

void chain_release(void)
{
    /* The direction register stands before PORT. */
    if (enable.mask)
        enable.port[-1] &= (uint8_t)~enable.mask;
    chips = 0;
    enable.mask = 0;
    memset(bits, 0, sizeof bits);
}

void chain_set(uint8_t count, const uint8_t pins[4])
{
    chips = count;
    data = wire(pins[0]);
    clock = wire(pins[1]);
    latch = wire(pins[2]);
    if (pins[3] != NONE)
        enable = wire(pins[3]);
    changed = true;
}

void chain_put(uint8_t bit, bool high)
{
    bit_put(bits, bit, high);
    changed = true;
}

/* Both wires may be bits of one port: then the clock's levels carry the data. */
static void shift_byte(uint8_t byte)
{
    bool same = data.port == clock.port;
    uint8_t data_low = *data.port & (uint8_t)~data.mask;
    uint8_t clock_low = *clock.port & (uint8_t)~clock.mask;
    for (uint8_t mask = 0x80; mask; mask >>= 1) {
        uint8_t level = byte & mask ? data_low | data.mask : data_low;
        *data.port = level;
        if (same)
            clock_low = level;
        *clock.port = clock_low | clock.mask;
        *clock.port = clock_low;
    }
    *data.port = data_low;
}

bool chain_shift(void)
{
    if (!changed || !chips)
        return false;
    changed = false;
    /* What goes in first ends in the chip furthest from the board. */
    for (uint8_t chip = chips; chip--;)
        shift_byte(bits[chip]);
    return true;
}

void chain_latch(void)
{
    *latch.port |= latch.mask;
    *latch.port &= (uint8_t)~latch.mask;
}

void chain_show(void)
{
    if (!chain_shift())
        return;
    chain_latch();
    if (enable.mask) {
        *enable.port &= (uint8_t)~enable.mask;
        enable.port[-1] |= enable.mask;
    }
}
