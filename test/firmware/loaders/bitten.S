; A plain program for tests: it raises pin 8 (B0; H5 on the larger chip), turns the watchdog on without its interrupt
; and lets it bite.
#include <avr/io.h>

#define AT(reg) _SFR_MEM_ADDR(reg)
#define SET(reg, value) ldi r24, (value) $ sts AT(reg), r24

#if defined(__AVR_ATmega2560__)
#define LAMP_PORT PORTH
#define LAMP_DDR DDRH
#define LAMP 5
#else
#define LAMP_PORT PORTB
#define LAMP_DDR DDRB
#define LAMP 0
#endif

.section .text
.global main
main:
    SET(LAMP_DDR, 1 << LAMP)
    SET(LAMP_PORT, 1 << LAMP)
    wdr
    SET(WDTCSR, (1 << WDCE) | (1 << WDE))
    SET(WDTCSR, (1 << WDE) | (1 << WDP2))
here:
    rjmp here
