/*
 * A board that knows nothing: the computer switches every lamp by a byte over
 * the serial line. Bits 0 to 6 are the pin, bit 7 says lit. 57,600 baud, as
 * the line of the real firmware. Without the computer the lamps stay as they are.
 */
#include <avr/interrupt.h>
#include <avr/sleep.h>

#include "pins.h"

#define RECEIVED 64

static volatile uint8_t received[RECEIVED], received_in, received_out;

ISR(USART_RX_vect)
{
    uint8_t byte = UDR0;
    uint8_t next = (received_in + 1) & (RECEIVED - 1);
    if (next == received_out)
        return;
    received[received_in] = byte;
    received_in = next;
}

static void setup(void)
{
    for (uint8_t pin = 2; pin < 20; pin++)
        pin_output(pin);
    /* Double speed: 16 MHz / 8 / 35 = 57,143 baud. */
    UBRR0 = 34;
    UCSR0A = 1 << U2X0;
    UCSR0C = 1 << UCSZ01 | 1 << UCSZ00;
    UCSR0B = 1 << RXCIE0 | 1 << RXEN0;
    set_sleep_mode(SLEEP_MODE_IDLE);
    sleep_enable();
    sei();
}

int main(void)
{
    setup();
    for (;;) {
        while (received_out != received_in) {
            uint8_t byte = received[received_out];
            received_out = (received_out + 1) & (RECEIVED - 1);
            uint8_t pin = byte & 0x7F;
            if (pin >= 2 && pin < 20)
                lamp(pin, byte & 0x80);
        }
        /* The instruction behind sei is done before an interrupt: none is slept over. */
        cli();
        if (received_out == received_in) {
            sei();
            sleep_cpu();
        }
        sei();
    }
}
