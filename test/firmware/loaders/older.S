; A boot loader of the older kind, for tests: it does not look at MCUSR, leaves the watchdog as it is and waits for
; bytes longer than the shortest time of the watchdog before it starts the program. So after a reset by the
; hardware watchdog it is reset again and again, until the power is cut.
#include <avr/io.h>

#define AT(reg) _SFR_MEM_ADDR(reg)

.section .text
.global main
main:
    clr  r1
    ldi  r24, lo8(RAMEND)
    sts  AT(SPL), r24
    ldi  r24, hi8(RAMEND)
    sts  AT(SPH), r24

    ; The line at 57,600 baud without double speed; transmitter and receiver stay on.
    ldi  r24, 16
    sts  AT(UBRR0L), r24
    sts  AT(UBRR0H), r1
    ldi  r24, (1 << RXEN0) | (1 << TXEN0)
    sts  AT(UCSR0B), r24

    ; Its page buffer lies at the bottom of RAM, its stack at the top.
    ldi  r26, lo8(RAMSTART)
    ldi  r27, hi8(RAMSTART)
    ldi  r24, 0xA5
    clr  r25
fill:
    st   X+, r24
    dec  r25
    brne fill
    rcall wait
    jmp  0

; WAIT_MS milliseconds, 16,000 cycles each.
wait:
    ldi  r22, lo8(WAIT_MS)
    ldi  r23, hi8(WAIT_MS)
millisecond:
    ldi  r24, lo8(3999)
    ldi  r25, hi8(3999)
turn:
    sbiw r24, 1
    brne turn
    subi r22, 1
    sbci r23, 0
    brne millisecond
    ret
