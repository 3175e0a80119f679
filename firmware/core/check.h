/* Is an image consistent (PROTOCOL.md, chapter 2)? One record or row at a step,
 * so that lamps run on meanwhile. */
#ifndef CHECK_H
#define CHECK_H

#include "image.h"

struct check {
    image_source source;
    uint16_t length;
    uint16_t at;       /* the record or row that comes next */
    uint16_t place;    /* what a refusal speaks of */
    uint16_t program;  /* the program at hand */
    uint16_t pairs;    /* its conflict pairs */
    uint16_t states;   /* the packed states that pairs are held against */
    uint8_t code;      /* 0, or why the image is refused */
    uint8_t phase;
    uint8_t after_pairs;
    uint8_t item;
    uint8_t part;      /* of the item: dial, pair or row */
    uint8_t pair;
    uint8_t site_lamps;
    uint8_t with_sync[(CAPACITY_PROGRAMS + 7) / 8];
    uint8_t pins_used[(CAPACITY_PINS + 8) / 8];
    uint8_t bits_used[CAPACITY_CHIPS];
};

void check_start(struct check *check, image_source source, uint16_t length);
/* True while there is more to do; then `code` and `place` tell the outcome. */
bool check_step(struct check *check);

#endif
