#ifndef RESET_H
#define RESET_H

void watchdog_start(void);

#endif
