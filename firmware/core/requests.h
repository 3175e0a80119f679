/* Requests: taken from the line, answered once, repeats recognised. */
#ifndef REQUESTS_H
#define REQUESTS_H

#include "hal.h"

/* True while a complete request waits for room on the line or for the EEPROM. */
bool requests_poll(void);
void requests_host_gone(void);
/* The outcome of the slow request with this line's CRC. */
void requests_outcome(uint16_t line, uint8_t code);

#endif
