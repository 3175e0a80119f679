/* Lamps and inputs on port bits. What lamps are to show is noted for each port
 * and written together. */
#include <avr/interrupt.h>
#include <avr/io.h>
#include <string.h>

#include "bits.h"
#include "chain.h"
#include "hal.h"
#include "pinmap.h"
#include "pins.h"

static const __flash uint16_t registers[PORTS] = PORT_REGISTERS;
static const __flash uint8_t pin_bits[CAPACITY_PINS + 1] = PIN_BITS;

/* The serial line and its pull-up are left alone. */
#define SERIAL_PORT (pin_bits[0] >> 3)
#define SERIAL_BITS 0x03
#define SERIAL_PULL_UP 0x01

static uint8_t next_port[PORTS];
static uint8_t next_ddr[PORTS];

static volatile uint8_t *input_register(uint8_t port) { return (volatile uint8_t *)registers[port]; }

struct pin pin_of(uint8_t number)
{
    uint8_t where = pin_bits[number];
    struct pin pin = { input_register(where >> 3) + 2, bit_mask(where) };
    return pin;
}

void hal_pins_begin(void)
{
    memset(next_port, 0, sizeof next_port);
    memset(next_ddr, 0, sizeof next_ddr);
    next_port[SERIAL_PORT] = SERIAL_PULL_UP;
    chain_release();
}

static void put(uint8_t *ports, uint8_t pin, bool on)
{
    uint8_t where = pin_bits[pin];
    if (on)
        ports[where >> 3] |= bit_mask(where);
    else
        ports[where >> 3] &= (uint8_t)~bit_mask(where);
}

void hal_pin_input(uint8_t pin, bool pull_up) { put(next_port, pin, pull_up); }

void hal_pin_output(uint8_t pin, bool high)
{
    put(next_ddr, pin, true);
    put(next_port, pin, high);
}

void hal_chain(uint8_t chips, const uint8_t pins[4])
{
    for (uint8_t i = 0; i < 3; i++)
        hal_pin_output(pins[i], false);
    chain_set(chips, pins);
}

void hal_pins_apply(void)
{
    for (uint8_t i = 0; i < PORTS; i++) {
        volatile uint8_t *port = input_register(i);
        uint8_t serial = i == SERIAL_PORT ? port[1] & SERIAL_BITS : 0;
        port[2] = next_port[i];
        port[1] = next_ddr[i] | serial;
    }
    chain_show();
}

void hal_output(uint8_t output, bool high)
{
    if (output < CHAIN_BASE)
        put(next_port, output, high);
    else
        chain_put((uint8_t)(output - CHAIN_BASE), high);
}

/* The chain's bits are shifted in beforehand, so that its latch and the ports
 * change within a few microseconds. */
void hal_outputs_commit(void)
{
    bool latch = chain_shift();
    cli();
    if (latch)
        chain_latch();
    for (uint8_t i = 0; i < PORTS; i++) {
        volatile uint8_t *port = input_register(i) + 2;
        if (*port != next_port[i])
            *port = next_port[i];
    }
    sei();
}

void pin_restore(uint8_t number)
{
    struct pin pin = pin_of(number);
    uint8_t port = pin_bits[number] >> 3;
    bool driven = next_ddr[port] & pin.mask;
    /* A pin that is let go is not driven to another level on the way. */
    if (!driven)
        pin_let_go(&pin);
    if (next_port[port] & pin.mask)
        pin_high(&pin);
    else
        pin_low(&pin);
    if (driven)
        pin_drive(&pin);
}

void hal_pin_drive(uint8_t pin, bool high)
{
    hal_pin_output(pin, high);
    pin_restore(pin);
}

void hal_pin_free(uint8_t pin)
{
    put(next_ddr, pin, false);
    put(next_port, pin, false);
    pin_restore(pin);
}

bool hal_input(uint8_t pin)
{
    uint8_t where = pin_bits[pin];
    return *input_register(where >> 3) & bit_mask(where);
}
