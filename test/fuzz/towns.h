/* Tables that a fuzzed board runs, from a file that test/fuzz/towns.ts writes: each the length of its image (two bytes,
 * low first), the image, and an EEPROM that keeps it. */
#ifndef TOWNS_H
#define TOWNS_H

#include "hal.h"

#define TOWNS_MOST 16

struct town {
    uint16_t length;
    uint8_t image[CAPACITY_IMAGE], eeprom[EEPROM_BYTES];
};
extern struct town towns[TOWNS_MOST];
extern unsigned towns_count;

/* Ends the process when the file is not what it should be. */
void towns_read(const char *path);

#endif
