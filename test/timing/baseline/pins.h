/* Lamps by their pin number on an ATmega328P board, as hobby programs do it. */
#ifndef PINS_H
#define PINS_H

#include <avr/io.h>
#include <avr/pgmspace.h>
#include <stdbool.h>
#include <util/atomic.h>

/* Pins 0 to 7 are D0 to D7, 8 to 13 are B0 to B5, 14 to 19 are C0 to C5. */
static volatile uint8_t *port_of(uint8_t pin) { return pin < 8 ? &PORTD : pin < 14 ? &PORTB : &PORTC; }

static uint8_t mask_of(uint8_t pin)
{
    static const uint8_t masks[] PROGMEM = {1, 2, 4, 8, 16, 32, 64, 128};
    return pgm_read_byte(&masks[pin < 8 ? pin : pin < 14 ? pin - 8 : pin - 14]);
}

/* The direction register lies one below the port. */
static void pin_output(uint8_t pin) { *(port_of(pin) - 1) |= mask_of(pin); }

static void __attribute__((noinline)) lamp(uint8_t pin, bool lit)
{
    volatile uint8_t *port = port_of(pin);
    uint8_t mask = mask_of(pin);
    ATOMIC_BLOCK(ATOMIC_RESTORESTATE)
    {
        if (lit)
            *port |= mask;
        else
            *port &= (uint8_t)~mask;
    }
}

#endif
