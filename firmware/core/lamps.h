/* Which lamps are lit: planned by sites, indicators and groups, overridden by
 * the host, sent to the outputs together. */
#ifndef LAMPS_H
#define LAMPS_H

#include "hal.h"

#define LAMP_BITS ((CAPACITY_LAMPS + 7) / 8)

/* Lamp i in bit i: as planned, and as lit after overrides. */
extern uint8_t lamps_plan[LAMP_BITS];
extern uint8_t lamps_lit[LAMP_BITS];

/* The plan or an override may have changed since the last commit. */
extern bool lamps_changed;

/* So many lamps belong to sites, as the table had it when it started. */
uint8_t lamps_of_sites(void);
/* All dark, no overrides; the pins must stand at their dark levels. */
void lamps_start(void);
/* Plans indicators and sync outputs. */
void lamps_plan_left_over(void);
/* Plans one lamp alone, for the sweep, or with NONE none. */
void lamps_plan_only(uint8_t lamp);
/* Changes outputs to the plan with its overrides. */
void lamps_commit(void);
/* Notes eight outputs anew as their lamps are lit. */
void lamps_renew(uint8_t eight);
void lamps_force(uint8_t lamp, bool lit);
/* Lit from the next tick on for so many of them, then forced dark. One lamp at
 * a time; the one before goes dark. */
void lamps_time(uint8_t lamp, uint16_t ms);
void lamps_tick(void);
void lamps_release(uint8_t lamp);
void lamps_release_all(void);
bool lamps_forced(void);
bool lamps_any_lit(void);

#endif
