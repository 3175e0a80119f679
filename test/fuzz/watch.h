/* What must be so of a board at every moment, written from PROTOCOL.md and not from the core. */
#ifndef WATCH_H
#define WATCH_H

#include "hal.h"

/* Says what is wrong and ends the process. */
__attribute__((noreturn)) void wrong(const char *what);

/* CRC-16 as on the line, bit by bit. */
uint16_t watch_crc(const uint8_t *bytes, unsigned count);

/* A table has been loaded; called before its pins are arranged. */
extern void (*watch_loaded)(void);

/* The outputs are the lamps, and no conflicting pair is lit but by the host's own word. */
void watch_lamps(void);

/* A line that the board has sent, without its newline: form, length, CRC. Empty ones are fine. */
void watch_line(const char *text);

#endif
