#include "adc.h"

#include <avr/io.h>

#include "hal.h"

#if defined(CHIP_ATMEGA2560)
#define REFERENCE 0x1E
#define FIRST_PIN 54
#else
#define REFERENCE 0x0E
#define FIRST_PIN 14
#endif

#define PERIOD 100
/* Ticks from the choice of the reference to the next measurement of it: at
 * least 1 ms, where 70 microseconds are its start by the data sheets. */
#define SETTLING 2

static uint8_t left = PERIOD;
/* A measurement of the reference has begun and has not been noted. */
static bool measuring;
static uint16_t reference;

/* 16 MHz / 128 = 125 kHz: within the 50 to 200 kHz for ten bits. */
#define ENABLED (1 << ADEN | 1 << ADPS2 | 1 << ADPS1 | 1 << ADPS0)

static bool converting(void) { return ADCSRA & 1 << ADSC; }

void adc_start(void)
{
    ADMUX = 1 << REFS0 | REFERENCE;
    /* The first conversion may be wrong by the data sheets: nobody notes it. */
    ADCSRA = ENABLED | 1 << ADSC;
    left = SETTLING;
}

static void note(void)
{
    if (!measuring || converting())
        return;
    measuring = false;
    reference = ADC;
}

void adc_tick(void)
{
    note();
    if (--left)
        return;
    left = PERIOD;
    measuring = true;
    ADCSRA |= 1 << ADSC;
}

uint16_t hal_supply_reading(void) { return reference; }

uint8_t adc_channel(uint8_t pin) { return pin < FIRST_PIN ? NO_CHANNEL : (uint8_t)(pin - FIRST_PIN); }

static void wait(void)
{
    while (converting()) {
    }
}

void adc_take(uint8_t channel)
{
    wait();
    note();
    ADMUX = (uint8_t)(1 << REFS0 | (channel & 7));
#if defined(CHIP_ATMEGA2560)
    ADCSRB = channel & 8 ? 1 << MUX5 : 0;
#endif
}

void adc_begin(void) { ADCSRA |= 1 << ADSC; }

uint16_t adc_end(void)
{
    wait();
    return ADC;
}

void adc_give(void)
{
    ADMUX = 1 << REFS0 | REFERENCE;
#if defined(CHIP_ATMEGA2560)
    ADCSRB = 0;
#endif
    if (left < SETTLING)
        left = SETTLING;
}
