/* Buttons, detectors and switches: debounced levels, the host's overrides,
 * latched demands. */
#ifndef INPUTS_H
#define INPUTS_H

#include "hal.h"

#define INPUT_BITS ((CAPACITY_INPUTS + 7) / 8)

/* Input i in bit i: what counts as active in this tick and in the one before,
 * and the latched demands. */
extern uint8_t inputs_levels[INPUT_BITS];
extern uint8_t inputs_before[INPUT_BITS];
extern uint8_t inputs_demands[INPUT_BITS];

/* Not zero while levels or demands may have changed since each site last
 * looked: a change sets it to 2, each tick takes 1. */
extern uint8_t inputs_stir;

/* No levels, demands or overrides. */
void inputs_start(void);
void inputs_tick(void);
/* False for NONE. */
bool inputs_active(uint8_t input);
void inputs_latch(uint8_t input);
void inputs_clear(uint8_t input);
/* The host's override, and its end. */
void inputs_force(uint8_t input, bool active);
void inputs_release(uint8_t input);
void inputs_release_all(void);
bool inputs_forced(void);

#endif
