#include "check_parts.h"

#include <string.h>

#include "bits.h"

#define LEAST_CYCLE_TENS 100

void check_refuse(struct check *c, uint8_t code, uint16_t place)
{
    if (c->code)
        return;
    c->code = code;
    c->place = place;
}

bool check_has(struct check *c, uint16_t bytes)
{
    if (bytes <= c->length && c->at <= c->length - bytes)
        return true;
    check_refuse(c, CODE_BAD_LENGTH, c->at);
    return false;
}

static void take(struct check *c, uint8_t *used, uint8_t i, uint16_t place)
{
    if (bit_get(used, i))
        check_refuse(c, CODE_PIN_TWICE, place);
    else
        bit_put(used, i, true);
}

/* Pins 0 and 1 are the serial line. */
static void take_pin(struct check *c, uint16_t at, uint8_t code)
{
    uint8_t pin = byte_at(c, at);
    if (pin < 2 || pin > CAPACITY_PINS)
        check_refuse(c, code, at);
    else
        take(c, c->pins_used, pin, at);
}

static void check_header(struct check *c)
{
    static const IN_FLASH uint8_t most[] = { CAPACITY_PROGRAMS, CAPACITY_SITES,  CAPACITY_LAMPS,
                                             CAPACITY_INPUTS,   CAPACITY_GROUPS, CAPACITY_CHIPS };
    if (!check_has(c, HEADER_BYTES))
        return;
    if (header(c, AT_FORMAT) != IMAGE_FORMAT)
        check_refuse(c, CODE_BAD_FORMAT, AT_FORMAT);
    for (uint8_t i = 0; i < sizeof most; i++)
        if (header(c, AT_PROGRAMS + i) > most[i])
            check_refuse(c, CODE_BAD_COUNT, AT_PROGRAMS + i);
    for (uint8_t i = AT_NIGHT_INPUT; i <= AT_OFF_INPUT; i++) {
        uint8_t input = header(c, i);
        if (input != NONE && input >= header(c, AT_INPUTS))
            check_refuse(c, CODE_BAD_INPUT, i);
    }
    c->at = HEADER_BYTES;
    c->phase = header(c, AT_CHIPS) ? CHAIN : LAMP;
}

static void check_chain(struct check *c)
{
    if (!check_has(c, CHAIN_BYTES))
        return;
    for (uint8_t i = 0; i < CHAIN_BYTES; i++)
        if (i < 3 || byte_at(c, c->at + i) != NONE)
            take_pin(c, c->at + i, CODE_BAD_OUTPUT);
    c->at += CHAIN_BYTES;
    c->phase = LAMP;
}

static void check_lamp(struct check *c)
{
    if (!check_has(c, LAMP_BYTES))
        return;
    uint8_t output = byte_at(c, c->at);
    if (output < CHAIN_BASE)
        take_pin(c, c->at, CODE_BAD_OUTPUT);
    else if (output - CHAIN_BASE >= 8 * header(c, AT_CHIPS))
        check_refuse(c, CODE_BAD_OUTPUT, c->at);
    else
        take(c, c->bits_used, output - CHAIN_BASE, c->at);
    c->at += LAMP_BYTES;
}

static void check_input(struct check *c)
{
    if (!check_has(c, INPUT_BYTES))
        return;
    take_pin(c, c->at, CODE_BAD_INPUT);
    c->at += INPUT_BYTES;
}

static void check_group(struct check *c)
{
    if (!check_has(c, GROUP_BYTES))
        return;
    uint32_t cycle = tens_at(c, c->at), least = tens_at(c, c->at + 2), greatest = tens_at(c, c->at + 4);
    if (least > greatest || least < LEAST_CYCLE_TENS)
        check_refuse(c, CODE_BAD_DIAL, c->at + 2);
    if (cycle < least || cycle > greatest)
        check_refuse(c, CODE_BAD_TIME, c->at);
    uint8_t input = byte_at(c, c->at + 7);
    if (input != NONE && input >= header(c, AT_INPUTS))
        check_refuse(c, CODE_BAD_INPUT, c->at + 7);
    c->at += GROUP_BYTES;
}

static void check_site(struct check *c)
{
    if (!check_has(c, SITE_BYTES))
        return;
    uint8_t program = byte_at(c, c->at), group = byte_at(c, c->at + 4) >> 4;
    if (program >= header(c, AT_PROGRAMS)) {
        check_refuse(c, CODE_BAD_SITE, c->at);
        return;
    }
    c->program = program_at(c->source, program);
    if (byte_at(c, c->at + 1) >= of_program(c, PROGRAM_ROWS))
        check_refuse(c, CODE_BAD_TARGET, c->at + 1);
    if (group == NO_GROUP ? bit_get(c->with_sync, program) : group >= header(c, AT_GROUPS))
        check_refuse(c, CODE_BAD_SITE, c->at + 4);
    uint8_t lamps = of_program(c, PROGRAM_LAMPS);
    if (lamps > header(c, AT_LAMPS) - c->site_lamps)
        check_refuse(c, CODE_BAD_COUNT, c->at);
    c->site_lamps += lamps;
    uint8_t inputs = of_program(c, PROGRAM_INPUTS);
    uint16_t site = c->at;
    if (!check_has(c, SITE_BYTES + inputs + 2 * of_program(c, PROGRAM_DIALS)))
        return;
    for (uint8_t i = 0; i < inputs; i++) {
        uint8_t input = byte_at(c, site + SITE_BYTES + i);
        if (input != NONE && input >= header(c, AT_INPUTS))
            check_refuse(c, CODE_BAD_INPUT, site + SITE_BYTES + i);
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
        check_refuse(c, CODE_BAD_TIME, c->at);
    c->at += 2;
}

/* Indicators and sync outputs are lamps that no site has. */
static void check_left_over(struct check *c, uint16_t at)
{
    uint8_t lamp = byte_at(c, at);
    if (lamp != NONE && (lamp < c->site_lamps || lamp >= header(c, AT_LAMPS)))
        check_refuse(c, CODE_BAD_OUTPUT, at);
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
    case DIAL:
    case PAIR:
    case FAULT_STATES:
    case SAFE_STATES:
    case STATES:
    case ROW: check_program_step(c); break;
    case SITE: check_items(c, AT_SITES, INPUT_LAMP); break;
    case SITE_DIAL: check_site_dial(c); break;
    case INPUT_LAMP: check_items(c, AT_INPUTS, GROUP_LAMP); break;
    case GROUP_LAMP:
        check_items(c, AT_GROUPS, FINISHED);
        if (c->phase == FINISHED && c->at != c->length)
            check_refuse(c, CODE_BAD_LENGTH, c->at);
        break;
    case FINISHED: break;
    }
    return !c->code && c->phase != FINISHED;
}
