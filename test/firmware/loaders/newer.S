; A boot loader of the newer kind, for tests: it saves and clears MCUSR, turns the watchdog off, waits for bytes and
; then starts the program through a reset by the watchdog, handing the saved flags on in r2. Other starts than by the
; reset pin go to the program at once.
;
; LEAVES is what it leaves on: 1 the line at 115,200 baud, double speed, with its receive interrupt; 2 timer 1
; counting, with its overflow interrupt and a compare output; 4 the watchdog at its shortest time; 8 the board's own
; LED lit; 16 interrupts leading to the boot section; 32 the stack anywhere; 64 the SPI and two-wire ports on.
#include <avr/io.h>

#define AT(reg) _SFR_MEM_ADDR(reg)
#define SET(reg, value) ldi r24, (value) $ sts AT(reg), r24

; Pin 13.
#if defined(__AVR_ATmega2560__)
#define LED 7
#else
#define LED 5
#endif

.section .text
.global main
main:
    clr  r1
    in   r2, _SFR_IO_ADDR(MCUSR)
    sts  AT(MCUSR), r1
    wdr
    SET(WDTCSR, (1 << WDCE) | (1 << WDE))
    sts  AT(WDTCSR), r1
    SET(SPL, RAMEND & 0xFF)
    SET(SPH, RAMEND >> 8)

    ; Its page buffer lies at the bottom of RAM, its stack at the top.
    ldi  r26, lo8(RAMSTART)
    ldi  r27, hi8(RAMSTART)
    ldi  r24, 0x5A
    clr  r25
fill:
    st   X+, r24
    dec  r25
    brne fill

    sbrs r2, EXTRF
    rjmp start
    SET(UBRR0L, 16)
    SET(UCSR0A, 1 << U2X0)
    SET(UCSR0B, (1 << RXEN0) | (1 << TXEN0))
    rcall wait
    ; Leaves through the watchdog.
    wdr
    SET(WDTCSR, (1 << WDCE) | (1 << WDE))
    SET(WDTCSR, 1 << WDE)
here:
    rjmp here

start:
#if LEAVES & 1
    SET(UBRR0L, 16)
    SET(UCSR0A, 1 << U2X0)
    SET(UCSR0B, (1 << RXCIE0) | (1 << RXEN0) | (1 << TXEN0))
#endif
#if LEAVES & 2
    SET(TCCR1A, 1 << COM1A1)
    SET(TIMSK1, 1 << TOIE1)
    SET(TCNT1H, 0xFF)
    SET(TCNT1L, 0x00)
    SET(TCCR1B, 1 << CS10)
#endif
#if LEAVES & 8
    sbi  _SFR_IO_ADDR(DDRB), LED
    sbi  _SFR_IO_ADDR(PORTB), LED
#endif
#if LEAVES & 16
    SET(MCUCR, 1 << IVCE)
    SET(MCUCR, 1 << IVSEL)
#endif
#if LEAVES & 32
    SET(SPL, 0x34)
    SET(SPH, 0x02)
#endif
#if LEAVES & 64
    SET(SPCR, (1 << SPE) | (1 << MSTR) | (1 << SPIE))
    SET(TWCR, (1 << TWEN) | (1 << TWIE))
#endif
#if LEAVES & 4
    wdr
    SET(WDTCSR, (1 << WDCE) | (1 << WDE))
    SET(WDTCSR, 1 << WDE)
#endif
    jmp  0

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
