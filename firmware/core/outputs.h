/* What the running table has at an output, and one that it does not have. */
#ifndef OUTPUTS_H
#define OUTPUTS_H

#include "hal.h"

enum use { USE_FREE, USE_LAMP, USE_OTHER, USE_MISSING };
/* OTHER: the serial line, an input, a wire of the chain. */
enum use outputs_use(uint8_t output);

/* Drives a free output from the second tick on for so many of them. */
void pulse_begin(uint8_t output, bool high, uint16_t ms);
/* Lets it go at once. */
void pulse_end(void);
/* A new arrangement of the pins has let it go. */
void pulse_forget(void);
bool pulse_on(void);
void pulse_tick(void);

#endif
