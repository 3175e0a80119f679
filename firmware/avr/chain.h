/* A row of 74HC595 chips: serial in, latched out. */
#ifndef CHAIN_H
#define CHAIN_H

#include "hal.h"

/* No chain; an output enable that was driven goes back to its pull-up. */
void chain_release(void);
void chain_set(uint8_t chips, const uint8_t pins[4]);
void chain_put(uint8_t bit, bool high);
/* Shifts the bits in when they have changed; true when a latch is due. */
bool chain_shift(void);
void chain_latch(void);
/* Shifts, latches and only then drives the output enable. */
void chain_show(void);

#endif
