/*
 * The usual way, written well: Penmarrow as one program in which each aspect is
 * a state with one transition, each site looks at the elapsed time in turn, and
 * nothing waits. Times and pins are those of the example file, copied by hand;
 * a longer green means to edit, compile and load this again.
 *
 * `ADDED_UP`: a transition counts from when it was due (since += time) instead
 * of from when it was noticed (since = now), as careful people write it.
 *
 * It has nothing else: no serial line, no conflict watch, no table, no store.
 */
#include <avr/interrupt.h>

#include "pins.h"

/* The usual clock: timer 0 runs over every 1.024 ms; what is too much is made up for. */
static volatile uint32_t clock_ms;
static volatile uint16_t spare_us;

ISR(TIMER0_OVF_vect)
{
    uint32_t ms = clock_ms + 1;
    uint16_t spare = spare_us + 24;
    if (spare >= 1000) {
        spare -= 1000;
        ms++;
    }
    spare_us = spare;
    clock_ms = ms;
}

static void clock_start(void)
{
    TCCR0B = 1 << CS01 | 1 << CS00;
    TIMSK0 = 1 << TOIE0;
    sei();
}

static uint32_t now_ms(void)
{
    uint32_t ms;
    ATOMIC_BLOCK(ATOMIC_RESTORESTATE) { ms = clock_ms; }
    return ms;
}

#ifdef ADDED_UP
#define NEXT(site, state, time) ((site##_since += (time)), (void)now, site##_state = (state))
#else
#define NEXT(site, state, time) (site##_since = now, site##_state = (state))
#endif

#define PASSED(site, time) (now - site##_since >= (time))

enum { CROSS_A_RED = 2, CROSS_A_AMBER, CROSS_A_GREEN, CROSS_B_RED, CROSS_B_AMBER, CROSS_B_GREEN };
enum { CHAPEL_A_RED = 8, CHAPEL_A_AMBER, CHAPEL_A_GREEN, CHAPEL_B_RED, CHAPEL_B_AMBER, CHAPEL_B_GREEN = 14 };
enum { HARBOUR_SIDE = 15, SHOP_SIDE = 16 };

enum two_stages { A_GREEN, A_AMBER, RED_TO_B, B_RED_AMBER, B_GREEN, B_AMBER, RED_TO_A, A_RED_AMBER };
enum beacons { LEFT, RIGHT };

static uint8_t cross_state, chapel_state, harbour_state;
static uint32_t cross_since, chapel_since, harbour_since;

static void market_cross(void)
{
    uint32_t now = now_ms();
    switch (cross_state) {
    case A_GREEN:
        if (PASSED(cross, 18000)) {
            lamp(CROSS_A_GREEN, false);
            lamp(CROSS_A_AMBER, true);
            NEXT(cross, A_AMBER, 18000);
        }
        break;
    case A_AMBER:
        if (PASSED(cross, 3000)) {
            lamp(CROSS_A_AMBER, false);
            lamp(CROSS_A_RED, true);
            NEXT(cross, RED_TO_B, 3000);
        }
        break;
    case RED_TO_B:
        if (PASSED(cross, 1000)) {
            lamp(CROSS_B_AMBER, true);
            NEXT(cross, B_RED_AMBER, 1000);
        }
        break;
    case B_RED_AMBER:
        if (PASSED(cross, 2000)) {
            lamp(CROSS_B_RED, false);
            lamp(CROSS_B_AMBER, false);
            lamp(CROSS_B_GREEN, true);
            NEXT(cross, B_GREEN, 2000);
        }
        break;
    case B_GREEN:
        if (PASSED(cross, 12000)) {
            lamp(CROSS_B_GREEN, false);
            lamp(CROSS_B_AMBER, true);
            NEXT(cross, B_AMBER, 12000);
        }
        break;
    case B_AMBER:
        if (PASSED(cross, 3000)) {
            lamp(CROSS_B_AMBER, false);
            lamp(CROSS_B_RED, true);
            NEXT(cross, RED_TO_A, 3000);
        }
        break;
    case RED_TO_A:
        if (PASSED(cross, 1000)) {
            lamp(CROSS_A_AMBER, true);
            NEXT(cross, A_RED_AMBER, 1000);
        }
        break;
    case A_RED_AMBER:
        if (PASSED(cross, 2000)) {
            lamp(CROSS_A_RED, false);
            lamp(CROSS_A_AMBER, false);
            lamp(CROSS_A_GREEN, true);
            NEXT(cross, A_GREEN, 2000);
        }
        break;
    }
}

/* An intergreen of 5 s leaves no time with red for all. */
static void chapel_corner(void)
{
    uint32_t now = now_ms();
    switch (chapel_state) {
    case A_GREEN:
        if (PASSED(chapel, 25000)) {
            lamp(CHAPEL_A_GREEN, false);
            lamp(CHAPEL_A_AMBER, true);
            NEXT(chapel, A_AMBER, 25000);
        }
        break;
    case A_AMBER:
        if (PASSED(chapel, 3000)) {
            lamp(CHAPEL_A_AMBER, false);
            lamp(CHAPEL_A_RED, true);
            lamp(CHAPEL_B_AMBER, true);
            NEXT(chapel, B_RED_AMBER, 3000);
        }
        break;
    case B_RED_AMBER:
        if (PASSED(chapel, 2000)) {
            lamp(CHAPEL_B_RED, false);
            lamp(CHAPEL_B_AMBER, false);
            lamp(CHAPEL_B_GREEN, true);
            NEXT(chapel, B_GREEN, 2000);
        }
        break;
    case B_GREEN:
        if (PASSED(chapel, 9000)) {
            lamp(CHAPEL_B_GREEN, false);
            lamp(CHAPEL_B_AMBER, true);
            NEXT(chapel, B_AMBER, 9000);
        }
        break;
    case B_AMBER:
        if (PASSED(chapel, 3000)) {
            lamp(CHAPEL_B_AMBER, false);
            lamp(CHAPEL_B_RED, true);
            lamp(CHAPEL_A_AMBER, true);
            NEXT(chapel, A_RED_AMBER, 3000);
        }
        break;
    case A_RED_AMBER:
        if (PASSED(chapel, 2000)) {
            lamp(CHAPEL_A_RED, false);
            lamp(CHAPEL_A_AMBER, false);
            lamp(CHAPEL_A_GREEN, true);
            NEXT(chapel, A_GREEN, 2000);
        }
        break;
    }
}

static void harbour_crossing(void)
{
    uint32_t now = now_ms();
    switch (harbour_state) {
    case LEFT:
        if (PASSED(harbour, 750)) {
            lamp(HARBOUR_SIDE, false);
            lamp(SHOP_SIDE, true);
            NEXT(harbour, RIGHT, 750);
        }
        break;
    case RIGHT:
        if (PASSED(harbour, 750)) {
            lamp(SHOP_SIDE, false);
            lamp(HARBOUR_SIDE, true);
            NEXT(harbour, LEFT, 750);
        }
        break;
    }
}

static void setup(void)
{
    for (uint8_t pin = CROSS_A_RED; pin <= SHOP_SIDE; pin++)
        if (pin != 13)
            pin_output(pin);
    clock_start();
    lamp(CROSS_A_GREEN, true);
    lamp(CROSS_B_RED, true);
    lamp(CHAPEL_A_GREEN, true);
    lamp(CHAPEL_B_RED, true);
    lamp(HARBOUR_SIDE, true);
    cross_since = chapel_since = harbour_since = now_ms();
}

/* Its address is where the bench measures one time round. */
static void __attribute__((noinline, noclone, used)) loop(void)
{
    market_cross();
    chapel_corner();
    harbour_crossing();
}

int main(void)
{
    setup();
    for (;;)
        loop();
}
