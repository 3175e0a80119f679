#include "chain.h"

#include <string.h>

#include "bits.h"
#include "pins.h"

enum { DATA, CLOCK, LATCH, ENABLE };

static uint8_t chips;
static bool changed;
static uint8_t bits[CAPACITY_CHIPS];
static uint8_t pins[4] = { NONE, NONE, NONE, NONE };

static struct pin wire(uint8_t which) { return pin_of(pins[which]); }

void chain_release(void)
{
    if (pins[ENABLE] != NONE) {
        struct pin enable = wire(ENABLE);
        /* The direction register stands before PORT. */
        enable.port[-1] &= (uint8_t)~enable.mask;
    }
    chips = 0;
    pins[ENABLE] = NONE;
    memset(bits, 0, sizeof bits);
}

void chain_set(uint8_t count, const uint8_t of[4])
{
    chips = count;
    memcpy(pins, of, sizeof pins);
    changed = true;
}

void chain_put(uint8_t bit, bool high)
{
    bit_put(bits, bit, high);
    changed = true;
}

/* Both wires may be bits of one port: then the clock's levels carry the data. */
static void shift_byte(uint8_t byte, struct pin data, struct pin clock)
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
    struct pin data = wire(DATA), clock = wire(CLOCK);
    for (uint8_t chip = chips; chip--;)
        shift_byte(bits[chip], data, clock);
    return true;
}

void chain_latch(void)
{
    struct pin latch = wire(LATCH);
    *latch.port |= latch.mask;
    *latch.port &= (uint8_t)~latch.mask;
}

void chain_show(void)
{
    if (!chain_shift())
        return;
    chain_latch();
    if (pins[ENABLE] == NONE)
        return;
    struct pin enable = wire(ENABLE);
    *enable.port &= (uint8_t)~enable.mask;
    enable.port[-1] |= enable.mask;
}
