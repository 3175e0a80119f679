/* The supply, worked out from the internal reference: 1.1 V within 10 % by the
 * data sheets, unless a meter has calibrated it. */
#ifndef SUPPLY_H
#define SUPPLY_H

#include "hal.h"

/* The reference as calibrated, mV; 0: never. */
extern uint16_t supply_reference;

/* Reads what is stored of it. */
void supply_boot(void);
void supply_tick(void);

/* Supply now, and its lowest since this was asked last, mV; 0 before the first reading. */
uint16_t supply_now(void);
uint16_t supply_least(void);

/* What the reference would be when the supply is what a meter shows. */
uint16_t supply_by_meter(uint16_t millivolts);

#endif
