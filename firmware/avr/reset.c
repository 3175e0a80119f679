/* Why the board started, the watchdog, and how deep the stack has gone. */
#include "reset.h"

#include <avr/interrupt.h>
#include <avr/io.h>
#include <avr/wdt.h>

#include "hal.h"

#define PAINT 0xC5
#define WATCHDOG_NOTE 0xD06E

/* Not cleared at the start: they say what was before. */
static uint8_t flags __attribute__((section(".noinit")));
static uint16_t note __attribute__((section(".noinit")));
static uint8_t cause;

/* The first free byte of RAM. */
extern uint8_t __heap_start;

/* Before anything else: after a reset by it the watchdog is still running. */
__attribute__((naked, used, section(".init3"))) void reset_first(void)
{
    flags = MCUSR;
    MCUSR = 0;
    wdt_disable();
    /* SP is at its top here and nothing is on the stack. */
    __asm__ volatile(
        "ldi r30, lo8(__heap_start)\n"
        "ldi r31, hi8(__heap_start)\n"
        "ldi r24, %0\n"
        "1: st Z+, r24\n"
        "cpi r30, lo8(%1)\n"
        "ldi r25, hi8(%1)\n"
        "cpc r31, r25\n"
        "brne 1b\n"
        "st Z, r24\n"
        :
        : "M"(PAINT), "i"(RAMEND)
        : "r24", "r25", "r30", "r31", "memory");
}

/* A hardware reset by the watchdog hangs some old boot loaders for ever, so the
 * firmware starts itself anew. Only where interrupts are off does the
 * hardware's reset come, one period later. */
ISR(WDT_vect)
{
    note = WATCHDOG_NOTE;
    wdt_disable();
    __asm__ volatile("jmp 0");
}

void watchdog_start(void)
{
    if (flags & 1 << PORF)
        cause = CAUSE_POWER;
    else if (flags & 1 << BORF)
        cause = CAUSE_BROWNOUT;
    else if (flags & 1 << EXTRF)
        cause = CAUSE_RESET;
    else if (flags & 1 << WDRF || note == WATCHDOG_NOTE)
        cause = CAUSE_WATCHDOG;
    else
        cause = CAUSE_UNKNOWN;
    note = 0;
    cli();
    wdt_reset();
    WDTCSR = 1 << WDCE | 1 << WDE;
    WDTCSR = 1 << WDIE | 1 << WDE | 1 << WDP2; /* 0.25 s */
    sei();
}

uint8_t hal_reset_cause(void) { return cause; }

uint16_t hal_stack_unused(void)
{
    const uint8_t *at = &__heap_start;
    while (at < (const uint8_t *)RAMEND && *at == PAINT)
        at++;
    return (uint16_t)(at - &__heap_start);
}
