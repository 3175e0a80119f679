/* The analogue converter: the internal reference, and a pin for a probe. */
#ifndef ADC_H
#define ADC_H

#include <stdbool.h>
#include <stdint.h>

#define NO_CHANNEL 0xFF

void adc_start(void);
/* Measures the internal reference ten times a second. */
void adc_tick(void);

/* The channel of a pin, or NO_CHANNEL. */
uint8_t adc_channel(uint8_t pin);
/* Takes the converter for a channel; waits for a measurement under way, 0.1 ms at most. */
void adc_take(uint8_t channel);
/* Starts a conversion: the pin is sampled 12 to 20 microseconds later. */
void adc_begin(void);
/* Waits for its end and gives the reading. */
uint16_t adc_end(void);
/* Gives the converter back to the reference, which has a millisecond to settle. */
void adc_give(void);

#endif
