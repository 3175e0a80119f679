/* Programs: their dials, conflict pairs and rows. */
#include "bits.h"
#include "check_parts.h"

/* Pairs held against one row's states in a step. */
#define PAIRS_A_STEP 8

#define LEAST_TENS 1            /* 10 ms */
#define GREATEST_FLASH_TENS 3000
#define GREATEST_GAP_TENS 6000

/* A dial that a row or the flashing names, with what its limits must keep. */
static void check_dial_use(struct check *c, uint8_t dial, uint16_t least, uint16_t greatest, uint16_t place)
{
    if (dial >= of_program(c, PROGRAM_DIALS)
        || tens_at(c, limits(c, dial)) < least
        || (greatest && tens_at(c, limits(c, dial) + 2) > greatest))
        check_refuse(c, CODE_BAD_DIAL, place);
}

void check_program(struct check *c)
{
    c->program = c->at;
    if (!check_has(c, PROGRAM_BYTES) || !check_has(c, source_word(c->source, c->at)))
        return;
    uint8_t lamps = of_program(c, PROGRAM_LAMPS);
    if (lamps < 1 || lamps > LIMIT_LAMPS)
        check_refuse(c, CODE_BAD_COUNT, c->program + PROGRAM_LAMPS);
    if (of_program(c, PROGRAM_DIALS) > LIMIT_DIALS)
        check_refuse(c, CODE_BAD_COUNT, c->program + PROGRAM_DIALS);
    if (of_program(c, PROGRAM_INPUTS) > LIMIT_INPUTS)
        check_refuse(c, CODE_BAD_COUNT, c->program + PROGRAM_INPUTS);
    if (of_program(c, PROGRAM_ROWS) < 1)
        check_refuse(c, CODE_BAD_COUNT, c->program + PROGRAM_ROWS);
    if (of_program(c, PROGRAM_PAIRS) > LIMIT_CONFLICTS)
        check_refuse(c, CODE_BAD_COUNT, c->program + PROGRAM_PAIRS);
    if (c->code)
        return;
    c->pairs = (uint16_t)(limits(c, of_program(c, PROGRAM_DIALS)) + 2 * aspect_bytes(lamps));
    c->at = (uint16_t)(c->pairs + 2 * of_program(c, PROGRAM_PAIRS));
    if (!check_has(c, 0))
        return;
    uint8_t flash = of_program(c, PROGRAM_FLASH);
    if (flash != (NO_DIAL << 4 | NO_DIAL)) {
        check_dial_use(c, flash >> 4, LEAST_TENS, GREATEST_FLASH_TENS, c->program + PROGRAM_FLASH);
        check_dial_use(c, flash & 15, LEAST_TENS, GREATEST_FLASH_TENS, c->program + PROGRAM_FLASH);
    }
    c->part = 0;
    c->phase = DIAL;
}

static void check_limits(struct check *c)
{
    if (c->part == of_program(c, PROGRAM_DIALS)) {
        c->part = 0;
        c->phase = PAIR;
        return;
    }
    uint16_t at = limits(c, c->part++);
    if (tens_at(c, at) > tens_at(c, at + 2))
        check_refuse(c, CODE_BAD_DIAL, at);
}

static void check_pair(struct check *c)
{
    if (c->part == of_program(c, PROGRAM_PAIRS)) {
        c->part = 0;
        c->phase = FAULT_STATES;
        return;
    }
    uint16_t at = (uint16_t)(c->pairs + 2 * c->part++);
    uint8_t lamps = of_program(c, PROGRAM_LAMPS), a = byte_at(c, at), b = byte_at(c, at + 1);
    if (a >= lamps || b >= lamps || a == b)
        check_refuse(c, CODE_CONFLICT, at);
}

/* Holds all pairs against the states at `at`, then goes on with `next`. */
static void watch(struct check *c, uint16_t at, enum phase next)
{
    c->states = at;
    c->pair = 0;
    c->after_pairs = next;
    c->phase = STATES;
}

static bool dark(const struct check *c, uint8_t lamp)
{
    uint8_t packed = byte_at(c, c->states + (lamp >> 2));
    return (packed & (bit_mask(2 * (lamp & 3)) | bit_mask(2 * (lamp & 3) + 1))) == 0;
}

static void check_states(struct check *c)
{
    uint8_t pairs = of_program(c, PROGRAM_PAIRS);
    for (uint8_t i = 0; i < PAIRS_A_STEP && c->pair < pairs; i++, c->pair++) {
        uint16_t at = (uint16_t)(c->pairs + 2 * c->pair);
        if (!dark(c, byte_at(c, at)) && !dark(c, byte_at(c, at + 1)))
            check_refuse(c, CODE_CONFLICT, c->states);
    }
    if (c->pair == pairs)
        c->phase = c->after_pairs;
}

static void check_mask(struct check *c, uint16_t at)
{
    uint8_t inputs = of_program(c, PROGRAM_INPUTS), mask = byte_at(c, at);
    if (inputs < 8 && mask >= bit_mask(inputs))
        check_refuse(c, CODE_BAD_ROW, at);
}

/* The kind in the low bits of the byte behind the operation, and its mask. */
static void check_condition(struct check *c, uint8_t operation)
{
    uint8_t kind = byte_at(c, c->at + 1) & 15;
    if (kind > COND_NOT_ALL
        || (kind == COND_CHANGED && operation == OP_JUMP)
        || (kind == COND_CHANCE && operation != OP_JUMP))
        check_refuse(c, CODE_BAD_ROW, c->at + 1);
    if (kind != COND_CHANCE)
        check_mask(c, c->at + 2);
}

static void check_row_parts(struct check *c, uint8_t operation, uint8_t dial)
{
    uint16_t at = c->at;
    if (operation <= OP_SYNC)
        check_dial_use(c, dial, operation == OP_AFTER || operation == OP_RANDOM ? LEAST_TENS : 0, 0, at);
    switch (operation) {
    case OP_UNTIL_MAX:
        check_dial_use(c, byte_at(c, at + 1) >> 4, 0, 0, at + 1);
        check_condition(c, operation);
        break;
    case OP_UNTIL:
        check_condition(c, operation);
        break;
    case OP_EXTEND:
        check_dial_use(c, byte_at(c, at + 1) & 15, 0, GREATEST_GAP_TENS, at + 1);
        check_dial_use(c, byte_at(c, at + 1) >> 4, 0, 0, at + 1);
        check_mask(c, at + 2);
        check_mask(c, at + 3);
        break;
    case OP_RANDOM:
        check_dial_use(c, byte_at(c, at + 1), 0, 0, at + 1);
        break;
    case OP_SYNC:
        check_dial_use(c, byte_at(c, at + 1), 0, 0, at + 1);
        bit_put(c->with_sync, c->item, true);
        break;
    case OP_JUMP:
        check_condition(c, operation);
        if (byte_at(c, at + 3) >= of_program(c, PROGRAM_ROWS))
            check_refuse(c, CODE_BAD_TARGET, at + 3);
        break;
    case OP_CLEAR:
    case OP_LATCH:
        check_mask(c, at + 1);
        break;
    }
}

static void check_row(struct check *c)
{
    uint16_t end = (uint16_t)(c->program + source_word(c->source, c->program));
    if (c->part == of_program(c, PROGRAM_ROWS)) {
        if (c->at != end)
            check_refuse(c, CODE_BAD_LENGTH, c->program);
        c->item++;
        c->phase = PROGRAM;
        return;
    }
    if (c->at >= end) {
        check_refuse(c, CODE_BAD_LENGTH, c->program);
        return;
    }
    uint8_t first = byte_at(c, c->at), operation = first & 15;
    if (operation > OP_LATCH) {
        check_refuse(c, CODE_BAD_ROW, c->at);
        return;
    }
    uint16_t states = (uint16_t)(c->at + 1 + row_extra(operation));
    uint8_t packed = operation <= OP_SYNC ? aspect_bytes(of_program(c, PROGRAM_LAMPS)) : 0;
    if (states + packed > end) {
        check_refuse(c, CODE_BAD_LENGTH, c->program);
        return;
    }
    check_row_parts(c, operation, first >> 4);
    c->part++;
    c->at = (uint16_t)(states + packed);
    if (packed)
        watch(c, states, ROW);
}

void check_program_step(struct check *c)
{
    switch (c->phase) {
    case DIAL: check_limits(c); break;
    case PAIR: check_pair(c); break;
    case FAULT_STATES: watch(c, limits(c, of_program(c, PROGRAM_DIALS)), SAFE_STATES); break;
    case SAFE_STATES: watch(c, c->pairs - aspect_bytes(of_program(c, PROGRAM_LAMPS)), ROW); break;
    case STATES: check_states(c); break;
    case ROW: check_row(c); break;
    }
}
