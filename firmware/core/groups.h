/* Common cycles that sites share. */
#ifndef GROUPS_H
#define GROUPS_H

#include "hal.h"

/* All groups at the end of their cycle, so that the next tick begins it. */
void groups_start(void);
/* `running` is false in a pause. */
void groups_tick(bool running);
/* The end of the tick for the groups, when all sites have asked. */
void groups_settle(void);
/* Does the group pass this offset, in ms, in this tick? */
bool groups_passed(uint8_t group, uint32_t offset);
/* Is the group within its sync pulse? */
bool groups_pulse(uint8_t group);
/* Where the record of a group stands in the running image. */
uint16_t group_at(uint8_t group);

#endif
