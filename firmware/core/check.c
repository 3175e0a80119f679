#include "check.h"

#include <string.h>

#include "bits.h"

enum phase {
    HEADER, CHAIN, LAMP, INPUT, GROUP, PROGRAM, DIAL, PAIR, FAULT_STATES, SAFE_STATES, ROW, STATES,
    SITE, SITE_DIAL, INPUT_LAMP, GROUP_LAMP, FINISHED
};

/* Pairs held against one row's states in a step. */
#define PAIRS_A_STEP 8

#define LEAST_TENS 1            /* 10 ms */
#define GREATEST_FLASH_TENS 3000
#define GREATEST_GAP_TENS 6000
#define LEAST_CYCLE_TENS 100

static uint8_t byte_at(const struct check *c, uint16_t at) { return c->source(at); }
static uint8_t header(const struct check *c, uint8_t at) { return c->source(at); }
static uint8_t of_program(const struct check *c, uint8_t at) { return c->source((uint16_t)(c->program + at)); }
static uint32_t tens_at(const struct check *c, uint16_t at) { return word_tens(source_word(c->source, at)); }

static void refuse(struct check *c, uint8_t code, uint16_t place)
{
    if (c->code)
        return;
    c->code = code;
    c->place = place;
}

static bool has(struct check *c, uint16_t bytes)
{
    if (bytes <= c->length && c->at <= c->length - bytes)
        return true;
    refuse(c, CODE_BAD_LENGTH, c->at);
    return false;
}

static void take(struct check *c, uint8_t *used, uint8_t i, uint16_t place)
{
    if (bit_get(used, i))
        refuse(c, CODE_PIN_TWICE, place);
    else
        bit_put(used, i, true);
}

/* Pins 0 and 1 are the serial line. */
static void take_pin(struct check *c, uint16_t at, uint8_t code)
{
    uint8_t pin = byte_at(c, at);
    if (pin < 2 || pin > CAPACITY_PINS)
        refuse(c, code, at);
    else
        take(c, c->pins_used, pin, at);
}

static void check_header(struct check *c)
{
    static const IN_FLASH uint8_t most[] = { CAPACITY_PROGRAMS, CAPACITY_SITES,  CAPACITY_LAMPS,
                                             CAPACITY_INPUTS,   CAPACITY_GROUPS, CAPACITY_CHIPS };
    if (!has(c, HEADER_BYTES))
        return;
    if (header(c, AT_FORMAT) != IMAGE_FORMAT)
        refuse(c, CODE_BAD_FORMAT, AT_FORMAT);
    for (uint8_t i = 0; i < sizeof most; i++)
        if (header(c, AT_PROGRAMS + i) > most[i])
            refuse(c, CODE_BAD_COUNT, AT_PROGRAMS + i);
    for (uint8_t i = AT_NIGHT_INPUT; i <= AT_OFF_INPUT; i++) {
        uint8_t input = header(c, i);
        if (input != NONE && input >= header(c, AT_INPUTS))
            refuse(c, CODE_BAD_INPUT, i);
    }
    c->at = HEADER_BYTES;
    c->phase = header(c, AT_CHIPS) ? CHAIN : LAMP;
}

static void check_chain(struct check *c)
{
    if (!has(c, CHAIN_BYTES))
        return;
    for (uint8_t i = 0; i < CHAIN_BYTES; i++)
        if (i < 3 || byte_at(c, c->at + i) != NONE)
            take_pin(c, c->at + i, CODE_BAD_OUTPUT);
    c->at += CHAIN_BYTES;
    c->phase = LAMP;
}

static void check_lamp(struct check *c)
{
    if (!has(c, LAMP_BYTES))
        return;
    uint8_t output = byte_at(c, c->at);
    if (output < CHAIN_BASE)
        take_pin(c, c->at, CODE_BAD_OUTPUT);
    else if (output - CHAIN_BASE >= 8 * header(c, AT_CHIPS))
        refuse(c, CODE_BAD_OUTPUT, c->at);
    else
        take(c, c->bits_used, output - CHAIN_BASE, c->at);
    c->at += LAMP_BYTES;
}

static void check_input(struct check *c)
{
    if (!has(c, INPUT_BYTES))
        return;
    take_pin(c, c->at, CODE_BAD_INPUT);
    c->at += INPUT_BYTES;
}

static void check_group(struct check *c)
{
    if (!has(c, GROUP_BYTES))
        return;
    uint32_t cycle = tens_at(c, c->at), least = tens_at(c, c->at + 2), greatest = tens_at(c, c->at + 4);
    if (least > greatest || least < LEAST_CYCLE_TENS)
        refuse(c, CODE_BAD_DIAL, c->at + 2);
    if (cycle < least || cycle > greatest)
        refuse(c, CODE_BAD_TIME, c->at);
    uint8_t input = byte_at(c, c->at + 7);
    if (input != NONE && input >= header(c, AT_INPUTS))
        refuse(c, CODE_BAD_INPUT, c->at + 7);
    c->at += GROUP_BYTES;
}

static uint16_t limits(const struct check *c, uint8_t dial)
{
    return (uint16_t)(c->program + PROGRAM_BYTES + 4 * dial);
}

/* A dial that a row or the flashing names, with what its limits must keep. */
static void check_dial_use(struct check *c, uint8_t dial, uint16_t least, uint16_t greatest, uint16_t place)
{
    if (dial >= of_program(c, PROGRAM_DIALS)
        || tens_at(c, limits(c, dial)) < least
        || (greatest && tens_at(c, limits(c, dial) + 2) > greatest))
        refuse(c, CODE_BAD_DIAL, place);
}

static void check_program(struct check *c)
{
    c->program = c->at;
    if (!has(c, PROGRAM_BYTES) || !has(c, source_word(c->source, c->at)))
        return;
    uint8_t lamps = of_program(c, PROGRAM_LAMPS);
    if (lamps < 1 || lamps > LIMIT_LAMPS)
        refuse(c, CODE_BAD_COUNT, c->program + PROGRAM_LAMPS);
    if (of_program(c, PROGRAM_DIALS) > LIMIT_DIALS)
        refuse(c, CODE_BAD_COUNT, c->program + PROGRAM_DIALS);
    if (of_program(c, PROGRAM_INPUTS) > LIMIT_INPUTS)
        refuse(c, CODE_BAD_COUNT, c->program + PROGRAM_INPUTS);
    if (of_program(c, PROGRAM_ROWS) < 1)
        refuse(c, CODE_BAD_COUNT, c->program + PROGRAM_ROWS);
    if (of_program(c, PROGRAM_PAIRS) > LIMIT_CONFLICTS)
        refuse(c, CODE_BAD_COUNT, c->program + PROGRAM_PAIRS);
    if (c->code)
        return;
    c->pairs = (uint16_t)(limits(c, of_program(c, PROGRAM_DIALS)) + 2 * aspect_bytes(lamps));
    c->at = (uint16_t)(c->pairs + 2 * of_program(c, PROGRAM_PAIRS));
    if (!has(c, 0))
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
        refuse(c, CODE_BAD_DIAL, at);
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
        refuse(c, CODE_CONFLICT, at);
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
            refuse(c, CODE_CONFLICT, c->states);
    }
    if (c->pair == pairs)
        c->phase = c->after_pairs;
}

static void check_mask(struct check *c, uint16_t at)
{
    uint8_t inputs = of_program(c, PROGRAM_INPUTS), mask = byte_at(c, at);
    if (inputs < 8 && mask >= bit_mask(inputs))
        refuse(c, CODE_BAD_ROW, at);
}

/* The kind in the low bits of the byte behind the operation, and its mask. */
static void check_condition(struct check *c, uint8_t operation)
{
    uint8_t kind = byte_at(c, c->at + 1) & 15;
    if (kind > COND_NOT_ALL
        || (kind == COND_CHANGED && operation == OP_JUMP)
        || (kind == COND_CHANCE && operation != OP_JUMP))
        refuse(c, CODE_BAD_ROW, c->at + 1);
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
            refuse(c, CODE_BAD_TARGET, at + 3);
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
            refuse(c, CODE_BAD_LENGTH, c->program);
        c->item++;
        c->phase = PROGRAM;
        return;
    }
    if (c->at >= end) {
        refuse(c, CODE_BAD_LENGTH, c->program);
        return;
    }
    uint8_t first = byte_at(c, c->at), operation = first & 15;
    if (operation > OP_LATCH) {
        refuse(c, CODE_BAD_ROW, c->at);
        return;
    }
    uint16_t states = (uint16_t)(c->at + 1 + row_extra(operation));
    uint8_t packed = operation <= OP_SYNC ? aspect_bytes(of_program(c, PROGRAM_LAMPS)) : 0;
    if (states + packed > end) {
        refuse(c, CODE_BAD_LENGTH, c->program);
        return;
    }
    check_row_parts(c, operation, first >> 4);
    c->part++;
    c->at = (uint16_t)(states + packed);
    if (packed)
        watch(c, states, ROW);
}

static void check_site(struct check *c)
{
    if (!has(c, SITE_BYTES))
        return;
    uint8_t program = byte_at(c, c->at), group = byte_at(c, c->at + 4) >> 4;
    if (program >= header(c, AT_PROGRAMS)) {
        refuse(c, CODE_BAD_SITE, c->at);
        return;
    }
    c->program = program_at(c->source, program);
    if (byte_at(c, c->at + 1) >= of_program(c, PROGRAM_ROWS))
        refuse(c, CODE_BAD_TARGET, c->at + 1);
    if (group == NO_GROUP ? bit_get(c->with_sync, program) : group >= header(c, AT_GROUPS))
        refuse(c, CODE_BAD_SITE, c->at + 4);
    uint8_t lamps = of_program(c, PROGRAM_LAMPS);
    if (lamps > header(c, AT_LAMPS) - c->site_lamps)
        refuse(c, CODE_BAD_COUNT, c->at);
    c->site_lamps += lamps;
    uint8_t inputs = of_program(c, PROGRAM_INPUTS);
    uint16_t site = c->at;
    if (!has(c, SITE_BYTES + inputs + 2 * of_program(c, PROGRAM_DIALS)))
        return;
    for (uint8_t i = 0; i < inputs; i++) {
        uint8_t input = byte_at(c, site + SITE_BYTES + i);
        if (input != NONE && input >= header(c, AT_INPUTS))
            refuse(c, CODE_BAD_INPUT, site + SITE_BYTES + i);
    }
    c->at = (uint16_t)(site + SITE_BYTES + inputs);
    c->part = 0;
    c->phase = SITE_DIAL;
}

static void check_site_dial(struct check *c)
{
    if (c->part == of_program(c, PROGRAM_DIALS)) {
        c->item++;
        c->phase = SITE;
        return;
    }
    uint32_t value = tens_at(c, c->at);
    uint16_t at = limits(c, c->part++);
    if (value < tens_at(c, at) || value > tens_at(c, at + 2))
        refuse(c, CODE_BAD_TIME, c->at);
    c->at += 2;
}

/* Indicators and sync outputs are lamps that no site has. */
static void check_left_over(struct check *c, uint16_t at)
{
    uint8_t lamp = byte_at(c, at);
    if (lamp != NONE && (lamp < c->site_lamps || lamp >= header(c, AT_LAMPS)))
        refuse(c, CODE_BAD_OUTPUT, at);
}

/* One item of a counted part; the part behind it when all are done. */
static void check_items(struct check *c, uint8_t count, enum phase next)
{
    if (c->item == header(c, count)) {
        c->item = 0;
        c->phase = next;
        return;
    }
    switch (c->phase) {
    case LAMP: check_lamp(c); c->item++; break;
    case INPUT: check_input(c); c->item++; break;
    case GROUP: check_group(c); c->item++; break;
    case PROGRAM: check_program(c); break;
    case SITE: check_site(c); break;
    case INPUT_LAMP: check_left_over(c, inputs_at(c->source) + INPUT_BYTES * c->item++ + 3); break;
    case GROUP_LAMP: check_left_over(c, groups_at(c->source) + GROUP_BYTES * c->item++ + 6); break;
    }
}

void check_start(struct check *c, image_source source, uint16_t length)
{
    memset(c, 0, sizeof *c);
    c->source = source;
    c->length = length;
}

bool check_step(struct check *c)
{
    switch ((enum phase)c->phase) {
    case HEADER: check_header(c); break;
    case CHAIN: check_chain(c); break;
    case LAMP: check_items(c, AT_LAMPS, INPUT); break;
    case INPUT: check_items(c, AT_INPUTS, GROUP); break;
    case GROUP: check_items(c, AT_GROUPS, PROGRAM); break;
    case PROGRAM: check_items(c, AT_PROGRAMS, SITE); break;
    case DIAL: check_limits(c); break;
    case PAIR: check_pair(c); break;
    case FAULT_STATES: watch(c, limits(c, of_program(c, PROGRAM_DIALS)), SAFE_STATES); break;
    case SAFE_STATES: watch(c, c->pairs - aspect_bytes(of_program(c, PROGRAM_LAMPS)), ROW); break;
    case STATES: check_states(c); break;
    case ROW: check_row(c); break;
    case SITE: check_items(c, AT_SITES, INPUT_LAMP); break;
    case SITE_DIAL: check_site_dial(c); break;
    case INPUT_LAMP: check_items(c, AT_INPUTS, GROUP_LAMP); break;
    case GROUP_LAMP:
        check_items(c, AT_GROUPS, FINISHED);
        if (c->phase == FINISHED && c->at != c->length)
            refuse(c, CODE_BAD_LENGTH, c->at);
        break;
    case FINISHED: break;
    }
    return !c->code && c->phase != FINISHED;
}
