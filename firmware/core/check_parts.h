/* What the two halves of the check share. */
#ifndef CHECK_PARTS_H
#define CHECK_PARTS_H

#include "check.h"

enum phase {
    HEADER, CHAIN, LAMP, INPUT, GROUP, PROGRAM, DIAL, PAIR, FAULT_STATES, SAFE_STATES, ROW, STATES,
    SITE, SITE_DIAL, INPUT_LAMP, GROUP_LAMP, FINISHED
};

static inline uint8_t byte_at(const struct check *c, uint16_t at) { return c->source(at); }
static inline uint8_t header(const struct check *c, uint8_t at) { return c->source(at); }
static inline uint8_t of_program(const struct check *c, uint8_t at) { return c->source((uint16_t)(c->program + at)); }
static inline uint32_t tens_at(const struct check *c, uint16_t at) { return word_tens(source_word(c->source, at)); }

/* Where the limits of a dial of the program at hand stand. */
static inline uint16_t limits(const struct check *c, uint8_t dial)
{
    return (uint16_t)(c->program + PROGRAM_BYTES + 4 * dial);
}

/* The first refusal counts. */
void check_refuse(struct check *c, uint8_t code, uint16_t place);
/* Are there so many bytes from the next record on? */
bool check_has(struct check *c, uint16_t bytes);

/* The program that begins at the next record; then one step of it, in the
 * phases from DIAL to STATES. */
void check_program(struct check *c);
void check_program_step(struct check *c);

#endif
