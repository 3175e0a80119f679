/* What the board tells without being asked. Only the latest is kept, so that a
 * full line costs detail and never time. */
#ifndef EVENTS_H
#define EVENTS_H

#include "hal.h"

void events_hello(void);
void events_tell(bool on);
void events_host_gone(void);
/* Notes; sent when there is room. */
void events_lamps(void);
void events_row(uint8_t site);
void events_demand(uint8_t input);
/* To its fault aspect, or back from it. */
void events_fault(uint8_t site);
/* The bit of `guard_deeds` that is to be told. */
void events_deed(uint8_t deed);
/* Sends what there is room for, unless an answer `waits` for the room. */
void events_poll(bool waits);

#endif
