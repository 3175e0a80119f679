#ifndef CLOCK_H
#define CLOCK_H

#include <stdbool.h>

void clock_start(void);
/* No tick is due for another half of a millisecond. */
bool clock_early(void);

#endif
