/* USART 0, 57,600 baud, two rings. */
#include "serial.h"

#include <avr/interrupt.h>
#include <avr/io.h>

#include "hal.h"

#define RECEIVED 64
#define SENDING HAL_SENDING

/* Double speed: 16 MHz / 8 / 35 = 57,143, -0.79 %. */
#define DIVISOR ((F_CPU / 4 / BAUD - 1) / 2)

#if defined(CHIP_ATMEGA2560)
#define USART_RX_vect USART0_RX_vect
#define USART_UDRE_vect USART0_UDRE_vect
#endif

static uint8_t after(uint8_t i) { return i + 1 == SENDING ? 0 : i + 1; }

static volatile uint8_t received[RECEIVED], received_in, received_out;
static volatile uint8_t sending[SENDING], sending_in, sending_out;

ISR(USART_RX_vect)
{
    uint8_t wrong = UCSR0A & (1 << FE0 | 1 << DOR0);
    uint8_t byte = UDR0;
    uint8_t next = (received_in + 1) & (RECEIVED - 1);
    /* A byte too many is lost; the CRC of its line tells. */
    if (next == received_out)
        return;
    /* No line may hold this one, so a wrong byte spoils its line. */
    received[received_in] = wrong ? 0xFF : byte;
    received_in = next;
}

/* Enabled only while something waits to be sent. */
ISR(USART_UDRE_vect)
{
    uint8_t next = after(sending_out);
    UDR0 = sending[sending_out];
    sending_out = next;
    if (next == sending_in)
        UCSR0B &= (uint8_t)~(1 << UDRIE0);
}

void serial_start(void)
{
    UBRR0 = DIVISOR;
    UCSR0A = 1 << U2X0;
    UCSR0C = 1 << UCSZ01 | 1 << UCSZ00;
    UCSR0B = 1 << RXCIE0 | 1 << RXEN0 | 1 << TXEN0;
}

bool serial_waits(void) { return received_in != received_out; }

int16_t hal_receive(void)
{
    if (!serial_waits())
        return -1;
    uint8_t byte = received[received_out];
    received_out = (received_out + 1) & (RECEIVED - 1);
    return byte;
}

uint8_t hal_send_room(void)
{
    uint8_t in = sending_in, out = sending_out;
    return out > in ? out - in - 1 : SENDING - 1 - in + out;
}

void hal_send(char c)
{
    sending[sending_in] = (uint8_t)c;
    sending_in = after(sending_in);
    /* The interrupt may change the same register between read and write. */
    cli();
    UCSR0B |= 1 << UDRIE0;
    sei();
}
