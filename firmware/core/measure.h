/* The words that look at the wiring: `pulse`, `probe`, `supply`. Each gives 0,
 * a code, or VERB_WAIT. */
#ifndef MEASURE_H
#define MEASURE_H

#include "hal.h"

uint8_t measure_pulse(void);
uint8_t measure_probe(bool *answered);
/* The fields of the answer. */
void measure_supply(void);

#endif
