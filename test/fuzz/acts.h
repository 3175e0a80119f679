/* Bytes of an input as acts of a host and of the world: lines, waits, levels, resets, power cuts. */
#ifndef ACTS_H
#define ACTS_H

#include <stddef.h>

#include "hal.h"

void acts_play(const uint8_t *data, size_t size);

/* Of the target: milliseconds pass; none is left for this input. */
void target_run(unsigned ms);
void target_run_until_fed(void);
bool target_over(void);
/* The board starts anew; what was on the line is lost. */
void target_restart(uint8_t cause);

#endif
