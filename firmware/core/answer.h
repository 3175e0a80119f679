/* Outgoing lines. The caller has made sure of the room. */
#ifndef ANSWER_H
#define ANSWER_H

#include "image.h"

/* Room for the longest line, for all but a few answers, and for an event. */
#define ROOM_LONG 100
#define ROOM_SHORT 60

void answer_begin(char mark, uint8_t number);
/* Ends the line with its CRC. */
void answer_end(void);
/* Fields, each with a space before it. */
void answer_text(const IN_FLASH char *text);
/* Word `i` of words that stand one behind the other, each with its NUL. */
void answer_word(const IN_FLASH char *words, uint8_t i);
void answer_number(uint32_t value);
void answer_signed(int32_t value);
/* Upper case; `digits` from 2 to 8. */
void answer_hex(uint32_t value, uint8_t digits);
/* Bits as hexadecimal, the first in the last digit; at least one digit. */
void answer_bits(const uint8_t *bits, uint8_t count);
/* Bytes as hexadecimal, or `-` for none. */
void answer_bytes(image_source source, uint16_t at, uint8_t count);

/* The reset cause and a master state, by their words. */
void answer_cause(void);
void answer_master(uint8_t master);

/* Whole answers. `place` is PLACE_NONE or an offset in the image. */
#define PLACE_NONE 0xFFFFu
void answer_ok(uint8_t sequence);
void answer_no(uint8_t sequence, uint8_t code, uint16_t place);

#endif
