/* A small program of the usual kind for the emulator's own tests: timer 0 at
   1 ms, sleep between ticks, serial echo, one EEPROM byte written on request. */
#include <avr/interrupt.h>
#include <avr/io.h>
#include <avr/sleep.h>
#include <avr/wdt.h>

#ifdef __AVR_ATmega2560__
#define LED_DDR DDRE
#define LED_PORT PORTE
#define LED_BIT 4
#define BUTTON_PIN PINE
#define BUTTON_PORT PORTE
#define BUTTON_BIT 5
#else
#define LED_DDR DDRD
#define LED_PORT PORTD
#define LED_BIT 2
#define BUTTON_PIN PIND
#define BUTTON_PORT PORTD
#define BUTTON_BIT 3
#endif

volatile uint16_t ticks;

ISR(TIMER0_COMPA_vect) { ticks++; }

ISR(
#ifdef USART0_RX_vect
    USART0_RX_vect
#else
    USART_RX_vect
#endif
) {
  uint8_t byte = UDR0;
  if (byte == 'w') {
    while (EECR & (1 << EEPE)) {
    }
    EEAR = 5;
    EEDR = 0x3c;
    EECR |= 1 << EEMPE;
    EECR |= 1 << EEPE;
  } else if (byte == 'd') {
    wdt_enable(WDTO_15MS);
  } else if (byte == 'v') {
    ADMUX = (1 << REFS0) | 0x0e;
#ifdef __AVR_ATmega2560__
    ADMUX = (1 << REFS0) | 0x1e;
#endif
    ADCSRA = (1 << ADEN) | (1 << ADSC) | 7;
    while (ADCSRA & (1 << ADSC)) {
    }
    byte = ADC >> 2;
  }
  while (!(UCSR0A & (1 << UDRE0))) {
  }
  UDR0 = byte;
}

int main(void) {
  uint8_t cause = MCUSR;
  MCUSR = 0;
  wdt_disable();
  LED_DDR |= 1 << LED_BIT;
  BUTTON_PORT |= 1 << BUTTON_BIT;
  TCCR0A = 1 << WGM01;
  OCR0A = 249;
  TIMSK0 = 1 << OCIE0A;
  TCCR0B = (1 << CS01) | (1 << CS00);
  UCSR0A = 1 << U2X0;
  UBRR0 = 34;
  UCSR0B = (1 << RXCIE0) | (1 << RXEN0) | (1 << TXEN0);
  UDR0 = cause;
  set_sleep_mode(SLEEP_MODE_IDLE);
  uint16_t seen = 0;
  for (;;) {
    cli();
    if (ticks == seen) {
      sleep_enable();
      sei();
      sleep_cpu();
      sleep_disable();
      continue;
    }
    seen++;
    sei();
    if (BUTTON_PIN & (1 << BUTTON_BIT)) {
      LED_PORT ^= 1 << LED_BIT;
    }
  }
}
