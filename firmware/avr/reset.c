/* Why the board started, the watchdog, and how deep the stack has gone. */
#include "reset.h"

#include <avr/interrupt.h>
#include <avr/io.h>
#include <avr/wdt.h>

#include "hal.h"

#define PAINT 0xC5

/* Many boot loaders clear MCUSR, so RAM tells what it can: this mark outlives
 * every reset, but a power cut leaves noise (or, when short, at times the mark).
 * A loader has its variables at the bottom of RAM and its stack at the top; the
 * mark lies behind ours, far from both. */
#define MARK_RUNS 0x52DB36A4UL
#define MARK_RESTARTS 0xC91E74B8UL
struct mark {
    uint32_t is, complement;
    /* Restarts since power-on; `check` is the complement of their sum. */
    uint8_t watchdogs, brownouts, check;
} reset_mark __attribute__((section(".noinit")));

static uint8_t cause;

/* Where a boot loader erases page 0 and is cut off before it writes it, the chip
 * runs through erased words into page 1. There it stops, with nothing driven:
 * the app's parking page (cli; wdr; rjmp) once more, at the first word of page 1,
 * right behind the vectors. */
__attribute__((naked, used, section(".vectors"))) void reset_park(void)
{
    __asm__ volatile(
        ".fill %0, 2, 0\n"
        "cli\n"
        "1: wdr\n"
        "rjmp 1b\n"
        :
        : "i"((SPM_PAGESIZE - _VECTORS_SIZE) / 2));
}

/* The first free byte of RAM. */
extern uint8_t __heap_start;

/* Before anything else: a boot loader, or a reset by it, may have left the
 * watchdog on at its shortest time, and it stays on until WDRF is cleared (8271,
 * 11.9.1). MCUSR is handed on in GPIOR0, which serves nothing else. */
__attribute__((naked, used, section(".init3"))) void reset_first(void)
{
    GPIOR0 = MCUSR;
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

static inline __attribute__((always_inline)) void set_mark(uint32_t to)
{
    reset_mark.is = to;
    reset_mark.complement = ~to;
}

static bool marked(uint32_t as) { return reset_mark.is == as && reset_mark.complement == ~as; }

/* A hardware reset by the watchdog hangs some old boot loaders for ever, so the
 * firmware starts itself anew. Only where interrupts are off does the
 * hardware's reset come, one period later. */
ISR(WDT_vect, ISR_NAKED)
{
    __asm__ volatile("clr __zero_reg__");
    set_mark(MARK_RESTARTS);
    wdt_disable();
    __asm__ volatile("jmp 0");
}

/* Whatever else can interrupt or take a pin. A start by software finds it as the
 * firmware had it, a start by a boot loader as that left it. */
static const __flash uint16_t quiet[] = {
#define OFF(reg) (uint16_t)&(reg)
    OFF(EIMSK), OFF(PCICR), OFF(SPMCSR), OFF(ACSR), OFF(ADCSRA), OFF(SPCR), OFF(TWCR), OFF(UCSR0B), OFF(GTCCR),
    OFF(TIMSK0), OFF(TCCR0A), OFF(TCCR0B), OFF(TIMSK1), OFF(TCCR1A), OFF(TCCR1B),
    OFF(TIMSK2), OFF(TCCR2A), OFF(TCCR2B),
#if defined(CHIP_ATMEGA2560)
    OFF(PRR0), OFF(PRR1), OFF(XMCRA), OFF(UCSR1B), OFF(UCSR2B), OFF(UCSR3B),
    OFF(TIMSK3), OFF(TCCR3A), OFF(TCCR3B), OFF(TIMSK4), OFF(TCCR4A), OFF(TCCR4B),
    OFF(TIMSK5), OFF(TCCR5A), OFF(TCCR5B),
#else
    OFF(PRR),
#endif
};

void reset_quiet(void)
{
    /* Interrupts lead to the program: IVSEL within four clocks of IVCE. */
    MCUCR = 1 << IVCE;
    MCUCR = 0;
    for (uint8_t i = 0; i < sizeof quiet / sizeof *quiet; i++)
        *(volatile uint8_t *)quiet[i] = 0;
    /* A write to the EEPROM goes on through a reset, and nothing can be read
     * meanwhile: 3.4 ms at most. */
    EECR &= (uint8_t)~(1 << EERIE);
    while (EECR & 1 << EEPE) {
    }
}

/* What does not fit has not been through a running board. */
static void count_restart(void)
{
    struct mark *mark = &reset_mark;
    bool running = marked(MARK_RUNS) || marked(MARK_RESTARTS);
    if (cause == CAUSE_POWER || !running || mark->check != (uint8_t)~(mark->watchdogs + mark->brownouts))
        mark->watchdogs = mark->brownouts = 0;
    if (cause == CAUSE_WATCHDOG && mark->watchdogs < 255)
        mark->watchdogs++;
    if (cause == CAUSE_BROWNOUT && mark->brownouts < 255)
        mark->brownouts++;
    mark->check = (uint8_t)~(mark->watchdogs + mark->brownouts);
}

void watchdog_start(void)
{
    uint8_t flags = GPIOR0;
    if (flags & 1 << PORF)
        cause = CAUSE_POWER;
    else if (flags & 1 << BORF)
        cause = CAUSE_BROWNOUT;
    else if (flags & 1 << EXTRF)
        cause = CAUSE_RESET;
    else if (flags & 1 << WDRF || marked(MARK_RESTARTS))
        cause = CAUSE_WATCHDOG;
    else
        cause = marked(MARK_RUNS) ? CAUSE_RESET : CAUSE_UNKNOWN;
    count_restart();
    set_mark(MARK_RUNS);
    wdt_reset();
    WDTCSR = 1 << WDCE | 1 << WDE;
    WDTCSR = 1 << WDIE | 1 << WDE | 1 << WDP2; /* 0.25 s */
}

uint8_t hal_reset_cause(void) { return cause; }
uint8_t hal_watchdogs(void) { return reset_mark.watchdogs; }
uint8_t hal_brownouts(void) { return reset_mark.brownouts; }

uint16_t hal_stack_unused(void)
{
    const uint8_t *at = &__heap_start;
    while (at < (const uint8_t *)RAMEND && *at == PAINT)
        at++;
    return (uint16_t)(at - &__heap_start);
}
