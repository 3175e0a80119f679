#include "rules.h"

#include "bits.h"
#include "board.h"
#include "groups.h"
#include "image.h"
#include "inputs.h"

/* The board's inputs that the program's inputs are bound to. */
static const uint8_t *bindings(void) { return image_bytes + site_record + SITE_BYTES; }

/* A mask of all inputs of the program. */
static uint8_t all_inputs(const struct site *site)
{
    uint8_t count = image_bytes[site->program_at + PROGRAM_INPUTS];
    return count == 8 ? 0xFF : bit_mask(count) - 1;
}

/* Program input i in bit i, where the mask has it; an input that is not bound
 * is never active. */
static uint8_t gather(const uint8_t *bits, uint8_t mask)
{
    const uint8_t *bound = bindings();
    uint8_t gathered = 0;
    for (uint8_t bit = 1; mask; mask >>= 1, bit <<= 1, bound++)
        if (mask & 1 && *bound != NONE && bit_get(bits, *bound))
            gathered |= bit;
    return gathered;
}

/* 16-bit xorshift: short, and its period is all 65,535 states but zero. */
static uint16_t draw(struct site *site)
{
    uint16_t x = site->generator;
    x ^= (uint16_t)(x << 7);
    x ^= x >> 9;
    x ^= (uint16_t)(x << 8);
    site->generator = x;
    return x;
}

bool rules_condition(struct site *site, uint8_t kind, uint8_t mask)
{
    switch (kind) {
    case COND_DEMAND: return gather(inputs_demands, mask);
    case COND_NO_DEMAND: return !gather(inputs_demands, mask);
    case COND_ACTIVE: return gather(inputs_levels, mask);
    case COND_INACTIVE: return !gather(inputs_levels, mask);
    case COND_CHANGED: return gather(inputs_levels, mask) ^ (site->levels & mask);
    case COND_CHANCE: return (uint8_t)(draw(site) >> 8) < mask;
    case COND_ALL_ACTIVE: return gather(inputs_levels, mask) == mask;
    default: return gather(inputs_levels, mask) != mask;
    }
}

void rules_clear(uint8_t mask)
{
    for (const uint8_t *bound = bindings(); mask; mask >>= 1, bound++)
        if (mask & 1 && *bound != NONE)
            inputs_clear(*bound);
}

void rules_latch(uint8_t mask)
{
    for (const uint8_t *bound = bindings(); mask; mask >>= 1, bound++)
        if (mask & 1 && *bound != NONE)
            inputs_latch(*bound);
}

void rules_enter(struct site *site, uint8_t operation, const uint8_t *row)
{
    if (operation == OP_EXTEND)
        site->gap = (uint16_t)board_now;
    else if ((operation == OP_UNTIL || operation == OP_UNTIL_MAX) && (row[1] & 15) == COND_CHANGED)
        site->levels = gather(inputs_levels, all_inputs(site));
    else if (operation == OP_RANDOM)
        draw(site);
}

static uint32_t dial_tens(const struct site *site, uint8_t dial)
{
    return word_tens(image_word(sites_dial_at(site, dial)));
}

static uint32_t random_ms(const struct site *site, uint8_t low_dial, uint8_t high_dial)
{
    uint32_t low = dial_tens(site, low_dial), high = dial_tens(site, high_dial);
    uint32_t span = high > low ? high - low : 0;
    if (span > 0xFFFF)
        span = 0xFFFF;
    return (low + (site->generator * (span + 1) >> 16)) * 10;
}

void rules_set_wait(struct site *site)
{
    const uint8_t *row = image_bytes + site->row_at;
    uint8_t operation = row[0] & 15;
    if (operation == OP_RANDOM)
        site->wait = random_ms(site, row[0] >> 4, row[1]);
    else if (operation != OP_EXTEND)
        site->wait = sites_dial_ms(site, row[0] >> 4);
}

static uint8_t look_at_traffic(struct site *site, const uint8_t *row, bool minimum_passed)
{
    uint16_t now = (uint16_t)board_now;
    if (gather(inputs_levels, row[2])) {
        site->gap = now;
        site->flags &= (uint8_t)~SITE_LAPSED;
    }
    /* Once lapsed the gap is not measured on: it would outgrow its 16 bits. */
    if (!(site->flags & SITE_LAPSED) && (uint16_t)(now - site->gap) >= sites_dial_ms(site, row[1] & 15))
        site->flags |= SITE_LAPSED;
    if (row[3] && !gather(inputs_demands, row[3])) {
        site->flags &= (uint8_t)~SITE_MAXIMUM;
        return STAY;
    }
    if (!(site->flags & SITE_MAXIMUM)) {
        site->flags |= SITE_MAXIMUM;
        site->maximum = board_now;
    }
    if (!minimum_passed)
        return STAY;
    if (site->flags & SITE_LAPSED)
        return LEAVE_SERVED;
    return board_now - site->maximum >= sites_dial_ms(site, row[1] >> 4) ? LEAVE_CUT : STAY;
}

/* Until something stirs, or at most until the maximum, another look is of no use. */
static uint8_t look_until(struct site *site, const uint8_t *row, uint8_t operation, uint32_t elapsed)
{
    site->wait = sites_dial_ms(site, row[0] >> 4);
    if (elapsed < site->wait)
        return STAY;
    if (rules_condition(site, row[1] & 15, row[2]))
        return LEAVE;
    site->wait = operation == OP_UNTIL ? UINT32_MAX : sites_dial_ms(site, row[1] >> 4);
    return elapsed >= site->wait ? LEAVE : STAY;
}

uint8_t rules_look(struct site *site, const uint8_t *row, uint8_t operation)
{
    uint32_t elapsed = board_now - site->begin;
    switch (operation) {
    case OP_EXTEND:
        return look_at_traffic(site, row, elapsed >= sites_dial_ms(site, row[0] >> 4));
    case OP_UNTIL:
    case OP_UNTIL_MAX:
        return look_until(site, row, operation, elapsed);
    case OP_SYNC:
        return elapsed >= site->wait
            && groups_passed(image_bytes[site_record + 4] >> 4, sites_dial_ms(site, row[1])) ? LEAVE : STAY;
    default:
        return elapsed >= site->wait ? LEAVE : STAY;
    }
}

void rules_leave(const uint8_t *row, uint8_t how)
{
    if (how == LEAVE_SERVED)
        rules_clear(row[2]);
    else if (how == LEAVE_CUT)
        rules_latch(row[2]);
}
