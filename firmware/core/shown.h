/* What each site shows: its row, its fault or safe aspect, flashing, and the
 * watch over conflicting lamps. */
#ifndef SHOWN_H
#define SHOWN_H

#include "hal.h"

/* Plans the lamps of all sites; `anew` also where nothing seems to have changed. */
void shown_tick(bool anew);

#endif
