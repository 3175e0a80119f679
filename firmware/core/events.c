#include "events.h"

#include <string.h>

#include "answer.h"
#include "bits.h"
#include "board.h"
#include "guard.h"
#include "image.h"
#include "inputs.h"
#include "lamps.h"
#include "sites.h"

#define SITE_BITS ((CAPACITY_SITES + 7) / 8)

static const IN_FLASH char words[] = EVENT_WORDS;

static bool telling;
static uint8_t count;
/* What waits to be told. */
static bool any, hello, lamps, gap, alone;
static uint32_t lamps_since;
static uint8_t rows[SITE_BITS], faults[SITE_BITS], demands[INPUT_BITS];
/* Whose turn it is, so that busy lamps do not keep rows from being told. */
static uint8_t turn;
#define TURNS 5

static void forget(void)
{
    lamps = gap = false;
    guard_deeds &= 0xF0;
    memset(rows, 0, sizeof rows);
    memset(faults, 0, sizeof faults);
    memset(demands, 0, sizeof demands);
}

/* A start may have cut a line short: an empty one ends it, so that the greeting
 * is not taken for its rest. */
void events_hello(void)
{
    hal_send('\n');
    any = hello = true;
}

void events_tell(bool on)
{
    if (on != telling)
        forget();
    telling = on;
    alone = false;
}

void events_host_gone(void)
{
    any |= alone = telling;
    telling = false;
    forget();
}

void events_lamps(void)
{
    if (!telling)
        return;
    gap |= lamps && lamps_since != board_now;
    any = lamps = true;
    lamps_since = board_now;
}

static void note(uint8_t *bits, uint8_t i, bool merged)
{
    if (!telling)
        return;
    gap |= merged && bit_get(bits, i);
    bit_put(bits, i, true);
    any = true;
}

/* Called while `begin` is still that of the row before: one that ends in the
 * tick in which it began is not missed. */
void events_row(uint8_t site) { note(rows, site, sites[site].begin != board_now); }

void events_demand(uint8_t input) { note(demands, input, true); }

void events_fault(uint8_t site) { note(faults, site, true); }

void events_deed(uint8_t deed) { note(&guard_deeds, deed, true); }

/* The first bit set, which is cleared; or NONE. */
static uint8_t take_first(uint8_t *bits, uint8_t bytes)
{
    for (uint8_t b = 0; b < bytes; b++)
        for (uint8_t i = 0; bits[b] && i < 8; i++)
            if (bit_get(bits + b, i)) {
                bit_put(bits + b, i, false);
                return (uint8_t)(8 * b + i);
            }
    return NONE;
}

static void begin(uint8_t event, uint32_t ms)
{
    answer_begin('!', count++);
    answer_word(words, event);
    if (event != EVENT_HELLO)
        answer_number(ms);
}

static void send_row(uint8_t i)
{
    /* A delayed start has its begin in the future; it was entered now. */
    begin(EVENT_ROW, sites[i].flags & SITE_DELAYED ? board_now : sites[i].begin);
    answer_number(i);
    answer_number(sites[i].row);
}

static void send_demand(uint8_t i)
{
    begin(EVENT_DEMAND, board_now);
    answer_number(i);
}

static void send_fault(uint8_t i)
{
    uint8_t fault = sites_fault_of(i);
    begin(EVENT_FAULT, fault ? sites[i].begin : board_now);
    answer_number(i);
    answer_number(fault);
}

static bool send_deed(void)
{
    uint8_t deeds = guard_deeds & 0x0F, i = take_first(&deeds, 1);
    if (i == NONE)
        return false;
    bit_put(&guard_deeds, i, false);
    begin(EVENT_GUARD, board_now);
    answer_number(i);
    return true;
}

static void send_hello(void)
{
    begin(EVENT_HELLO, 0);
    answer_number(PROTOCOL_VERSION);
    answer_cause();
    answer_hex(board_flags(), 2);
}

/* One event of the kind whose turn it is; false when it has none. */
static bool send_turn(void)
{
    uint8_t i;
    switch (turn) {
    case 0:
        if (!lamps)
            return false;
        lamps = false;
        begin(EVENT_LAMPS, lamps_since);
        answer_bits(lamps_lit, image_bytes[AT_LAMPS]);
        break;
    case 1:
        if ((i = take_first(rows, sizeof rows)) == NONE)
            return false;
        send_row(i);
        break;
    case 2:
        if ((i = take_first(demands, sizeof demands)) == NONE)
            return false;
        send_demand(i);
        break;
    case 3:
        if ((i = take_first(faults, sizeof faults)) == NONE)
            return false;
        send_fault(i);
        break;
    default:
        if (!send_deed())
            return false;
    }
    answer_end();
    return true;
}

/* One event of any kind; false when there is none. */
static bool send_next(void)
{
    if (hello) {
        hello = false;
        send_hello();
        answer_end();
        return true;
    }
    for (uint8_t i = 0; i < TURNS; i++) {
        if (++turn >= TURNS)
            turn = 0;
        if (send_turn())
            return true;
    }
    /* The marker comes behind what is known, the last word behind all. */
    if (!gap && !alone)
        return false;
    begin(gap ? EVENT_GAP : EVENT_ALONE, board_now);
    answer_end();
    if (gap)
        gap = false;
    else
        alone = false;
    return true;
}

void events_poll(bool waits)
{
    while (any && !waits && hal_send_room() >= ROOM_SHORT)
        any = send_next();
}
