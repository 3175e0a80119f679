#ifndef SERIAL_H
#define SERIAL_H

#include <stdbool.h>

void serial_start(void);
/* A byte has come that has not been read. */
bool serial_waits(void);

#endif
