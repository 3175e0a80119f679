/* The line to the board: what goes over it, counted, looked at, and held back where it may change lamps. */
#ifndef FEED_H
#define FEED_H

#include <stddef.h>

#include "hal.h"

enum feed_mode { NOISE, HARMLESS, ANYTHING };
extern enum feed_mode feed_mode;
extern bool feed_spoils;

extern unsigned long feed_total, feed_inputs;

void feed_begin(void);
/* What was on its way is gone. */
void feed_lost(void);
/* A valid line that is not allowed is spoilt before its newline. */
void feed_byte(uint8_t byte);
/* A line with its sequence number and CRC. */
void feed_request(uint8_t sequence, const char *text);
/* The last one again, as a host does that has heard no answer. */
void feed_again(void);

/* Tables that may start: known by length and CRC, as `begin` names them. */
void feed_allow(const uint8_t *image, unsigned length);
bool feed_is_allowed(const uint8_t *image, unsigned length);
/* What runs now may be kept, and so may start later. */
void feed_note_image(void);

#endif
