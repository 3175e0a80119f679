/* The board image (PROTOCOL.md, chapter 2): its places and time words, and the
 * running image in RAM. */
#ifndef IMAGE_H
#define IMAGE_H

#include "hal.h"

/* Header bytes. */
#define AT_FORMAT 0
#define AT_PROGRAMS 1
#define AT_SITES 2
#define AT_LAMPS 3
#define AT_INPUTS 4
#define AT_GROUPS 5
#define AT_CHIPS 6
#define AT_SWEEP 7
#define AT_NIGHT_INPUT 9
#define AT_OFF_INPUT 10
#define HEADER_BYTES 12

#define CHAIN_BYTES 4
#define LAMP_BYTES 2
#define INPUT_BYTES 4
#define GROUP_BYTES 8
#define PROGRAM_BYTES 8
#define SITE_BYTES 5

#define LAMP_ACTIVE_LOW 0x80
#define INPUT_ACTIVE_LOW 0x01
#define INPUT_PULL_UP 0x02

/* Bytes of a program record. */
#define PROGRAM_LAMPS 2
#define PROGRAM_DIALS 3
#define PROGRAM_INPUTS 4
#define PROGRAM_ROWS 5
#define PROGRAM_FLASH 6
#define PROGRAM_PAIRS 7

/* A byte of an image, wherever it lies: RAM or a slot of the store. */
typedef uint8_t (*image_source)(uint16_t at);

extern uint8_t image_bytes[CAPACITY_IMAGE];
/* 0 while there is no table. */
extern uint16_t image_length;
/* Its CRC without dial and cycle words. */
extern uint16_t image_shape;
/* Goes up with each changed dial, so that slow work notices. */
extern uint8_t image_changes;

uint8_t image_ram(uint16_t at);

/* A count of the header. One that cannot be comes from damage that the guard has
 * not found yet: nothing is written behind the end of an array meanwhile. */
static inline uint8_t image_count(uint8_t at, uint8_t most)
{
    uint8_t count = image_bytes[at];
    return count > most ? 0 : count;
}

static inline uint16_t image_word(uint16_t at)
{
    return (uint16_t)(image_bytes[at] | image_bytes[at + 1] << 8);
}
uint16_t source_word(image_source source, uint16_t at);

/* Where the parts behind the header begin. */
uint16_t lamps_at(image_source source);
uint16_t inputs_at(image_source source);
uint16_t groups_at(image_source source);
uint16_t programs_at(image_source source);
/* The offset of a program; of the first site when `program` is their count. */
uint16_t program_at(image_source source, uint8_t program);

/* Bytes of packed states of so many lamps. */
static inline uint8_t aspect_bytes(uint8_t lamps) { return (uint8_t)((lamps + 3) >> 2); }

/* Bytes of a row between its first byte and its states. */
uint8_t row_extra(uint8_t operation);

/* Time words: in 10 ms, in ms, and the nearest word to a number of ms. */
uint32_t word_tens(uint16_t word);
uint32_t word_ms(uint16_t word);
uint16_t nearest_word(uint32_t ms);

#endif
