/* Goes through an image byte by byte and tells dial and cycle words, which are
 * not part of its shape, from the rest. Only for images that are consistent. */
#ifndef WALK_H
#define WALK_H

#include "image.h"

struct walk {
    image_source source;
    uint16_t at;
    uint16_t edge;      /* where the run of like bytes ends */
    uint16_t record;    /* the site record that begins or has begun */
    uint16_t length;
    uint8_t item;       /* groups, then sites */
    uint8_t dial_bytes; /* of this item */
    bool dial;          /* the byte at `at` belongs to a dial or cycle word */
};

void walk_start(struct walk *walk, image_source source, uint16_t length);
/* True while there is a byte at `walk->at`; `walk->dial` then speaks of it. */
bool walk_more(struct walk *walk);

/* The CRC of the shape, at one go: for the start of the board. */
uint16_t walk_shape(image_source source, uint16_t length);

#endif
