/* When a row is left, and what its conditions and actions do with inputs. */
#ifndef RULES_H
#define RULES_H

#include "sites.h"

/* The outcome of a look at a running interval. */
enum { STAY, LEAVE, LEAVE_SERVED, LEAVE_CUT };

/* The site is the one at hand (sites_select). */
bool rules_condition(struct site *site, uint8_t kind, uint8_t mask);
void rules_clear(uint8_t mask);
void rules_latch(uint8_t mask);
/* What entering an interval of this operation draws or remembers. */
void rules_enter(struct site *site, uint8_t operation, const uint8_t *row);
/* How long the interval holds before its condition counts. */
void rules_set_wait(struct site *site);
uint8_t rules_look(struct site *site, const uint8_t *row, uint8_t operation);
/* What leaving does to demands. */
void rules_leave(const uint8_t *row, uint8_t how);

#endif
