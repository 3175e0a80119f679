#ifndef SUPPLY_H
#define SUPPLY_H

void supply_start(void);
/* Measures once a second. */
void supply_tick(void);

#endif
