/* What a pin tells of its lamp (PROTOCOL.md, chapter 5). The one place where the
 * firmware waits: 0.45 ms at most, while all lamps are dark, and only so early
 * in a millisecond that no tick comes late. */
#include <util/delay.h>

#include "adc.h"
#include "clock.h"
#include "hal.h"
#include "pins.h"

/* A pull-up of 50 kilohm fills 400 pF of wire and lamp to 99 % in this time. */
#define SETTLE_US 100
/* The pin's own driver is through long before. */
#define DRIVE_US 10
/* Behind the latest moment at which a conversion that was begun samples. */
#define SAMPLE_US 24
/* Ticks to wait for a quiet one before it is done at any rate. */
#define PATIENCE 8

static uint8_t waited;

static void active_high(uint8_t number, uint8_t channel, struct probe *found)
{
    const struct pin own = pin_of(number), *pin = &own;
    pin_let_go(pin);
    pin_high(pin);
    _delay_us(SETTLE_US);
    found->level = pin_level(pin);
    if (channel == NO_CHANNEL)
        return;
    adc_begin();
    found->rest = adc_end();
    pin_drive(pin);
    _delay_us(DRIVE_US);
    adc_begin();
    _delay_us(SAMPLE_US);
    pin_restore(number);
    found->lit = adc_end();
}

/* Low twice, so that the lamp is lit for some tens of microseconds only and
 * what is left on the wire is measured at once. */
static void active_low(uint8_t number, struct probe *found)
{
    const struct pin own = pin_of(number), *pin = &own;
    pin_low(pin);
    pin_drive(pin);
    _delay_us(DRIVE_US);
    adc_begin();
    _delay_us(SAMPLE_US);
    pin_let_go(pin);
    found->lit = adc_end();
    pin_drive(pin);
    _delay_us(DRIVE_US);
    adc_begin();
    pin_let_go(pin);
    found->rest = adc_end();
}

bool hal_probe(uint8_t number, bool high, struct probe *found)
{
    uint8_t channel = adc_channel(number);
    found->level = PROBE_NO_LEVEL;
    found->rest = found->lit = PROBE_NOTHING;
    if (!clock_early() && ++waited < PATIENCE)
        return false;
    waited = 0;
    if (channel != NO_CHANNEL)
        adc_take(channel);
    if (high)
        active_high(number, channel, found);
    else if (channel != NO_CHANNEL)
        active_low(number, found);
    pin_restore(number);
    if (channel != NO_CHANNEL)
        adc_give();
    return true;
}
