/* Starts the unchanged core anew in a running process, as power or a reset does. */
#ifndef RESTART_H
#define RESTART_H

#include "hal.h"

/* Variables as at the start of a program; the EEPROM of the board stays. */
void restart(uint8_t cause, uint32_t now);

#endif
