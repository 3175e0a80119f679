/* The supply, worked out from the internal 1.1 V reference (1.0 to 1.2 V by the
 * data sheet, so within 10 %). */
#include "supply.h"

#include <avr/io.h>

#include "hal.h"

#if defined(CHIP_ATMEGA2560)
#define REFERENCE 0x1E
#else
#define REFERENCE 0x0E
#endif

#define REFERENCE_MILLIVOLTS 1100
#define PERIOD 1000

static uint16_t left = 1;

void supply_start(void)
{
    ADMUX = 1 << REFS0 | REFERENCE;
    ADCSRA = 1 << ADEN | 1 << ADPS2 | 1 << ADPS1 | 1 << ADPS0;
}

void supply_tick(void)
{
    if (--left)
        return;
    left = PERIOD;
    ADCSRA |= 1 << ADSC;
}

uint16_t hal_supply_millivolts(void)
{
    uint16_t reading = ADC;
    return reading ? (uint16_t)(REFERENCE_MILLIVOLTS * 1024UL / reading) : 0;
}
