#include "towns.h"

#include <stdio.h>

#include "watch.h"

struct town towns[TOWNS_MOST];
unsigned towns_count;

void towns_read(const char *path)
{
    FILE *file = path ? fopen(path, "rb") : 0;
    if (!file)
        wrong("towns: AMBERWICK_TOWNS names no file");
    for (int low; (low = getc(file)) != EOF; towns_count++) {
        if (towns_count == TOWNS_MOST)
            wrong("towns: too many");
        struct town *town = &towns[towns_count];
        town->length = (uint16_t)(low | getc(file) << 8);
        if (town->length > CAPACITY_IMAGE || fread(town->image, 1, town->length, file) != town->length
            || fread(town->eeprom, 1, EEPROM_BYTES, file) != EEPROM_BYTES)
            wrong("towns: cut short");
    }
    fclose(file);
    if (!towns_count)
        wrong("towns: none");
}
