#ifndef RESET_H
#define RESET_H

/* With interrupts off, before anything else is started. */
void reset_quiet(void);
/* With interrupts off. */
void watchdog_start(void);

#endif
