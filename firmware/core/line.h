/* Incoming lines: gathered, checked, taken apart. */
#ifndef LINE_H
#define LINE_H

#include "hal.h"

/* Takes the next byte; true when a request with a right CRC is complete. */
bool line_feed(uint8_t byte);
/* Of the request at hand: its sequence number, and its CRC, which tells it
 * from others. */
extern uint8_t line_sequence;
extern uint16_t line_crc;
/* Lines dropped so far; stays at its greatest value. */
extern uint16_t line_dropped;

/* Fields are taken from the front; each says whether it was there as meant. */
void line_rewind(void);
/* The number of the word in a list; or NONE, and the field is not taken. */
uint8_t line_word(const IN_FLASH char *words);
bool line_number(uint32_t *value);
/* At most this number; `code` is 0, or why not. */
uint8_t line_index(uint8_t *index, uint8_t count);
/* So many upper-case hexadecimal digits, up to 8. */
bool line_hex(uint32_t *value, uint8_t digits);
/* Pairs of digits, or `-` for none where `blank`; up to `most` bytes. */
bool line_bytes(uint8_t *bytes, uint8_t *count, uint8_t most, bool blank);
/* No field is left. */
bool line_end(void);

#endif
