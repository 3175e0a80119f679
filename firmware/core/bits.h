/* Rows of bits: lamp or input i is bit i & 7 of byte i >> 3. */
#ifndef BITS_H
#define BITS_H

#include <stdbool.h>
#include <stdint.h>

#include "hal.h"

/* A table, since the chip has no shift by a variable. */
extern const IN_FLASH uint8_t bit_masks[8];

static inline uint8_t bit_mask(uint8_t i) { return bit_masks[i & 7]; }

static inline bool bit_get(const uint8_t *bits, uint8_t i) { return (bits[i >> 3] & bit_mask(i)) != 0; }

static inline void bit_put(uint8_t *bits, uint8_t i, bool on)
{
    if (on)
        bits[i >> 3] |= bit_mask(i);
    else
        bits[i >> 3] &= (uint8_t)~bit_mask(i);
}

#endif
