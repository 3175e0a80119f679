/* The millisecond: timer 0, 16 MHz / 64 / 250 = 1,000 Hz. */
#include "clock.h"

#include <avr/interrupt.h>
#include <avr/io.h>
#include <avr/sleep.h>
#include <avr/wdt.h>

#include "adc.h"
#include "hal.h"
#include "serial.h"

static volatile uint8_t due;

ISR(TIMER0_COMPA_vect) { due++; }

void clock_start(void)
{
    TCCR0A = 1 << WGM01;
    OCR0A = 249;
    TCNT0 = 0;
    TIFR0 = 1 << OCF0A;
    TIMSK0 = 1 << OCIE0A;
    TCCR0B = 1 << CS01 | 1 << CS00;
    set_sleep_mode(SLEEP_MODE_IDLE);
}

bool hal_tick(void)
{
    if (!due)
        return false;
    cli();
    due--;
    sei();
    adc_tick();
    return true;
}

/* 4 microseconds a count: 0.52 ms are left. */
bool clock_early(void) { return !due && TCNT0 < 120; }

void hal_watchdog(void) { wdt_reset(); }

void hal_sleep(void)
{
    /* What comes after cli waits; the instruction behind sei is still done
     * before an interrupt, so nothing is slept over. */
    cli();
    if (!due && !serial_waits()) {
        sleep_enable();
        sei();
        sleep_cpu();
        sleep_disable();
    }
    sei();
}
