#include "lamps.h"

#include <string.h>

#include "bits.h"
#include "board.h"
#include "events.h"
#include "groups.h"
#include "image.h"
#include "inputs.h"
#include "sites.h"

uint8_t lamps_plan[LAMP_BITS];
uint8_t lamps_lit[LAMP_BITS];
bool lamps_changed;

static uint8_t forced[LAMP_BITS];
static uint8_t forced_on[LAMP_BITS];
/* The lamp that is lit for a time, and ticks until it is forced dark; 0: none is. */
static uint8_t timed;
static uint16_t timed_left;
/* Lamps from here on belong to no site. */
static uint8_t left_over;
static uint16_t first_at;
static uint16_t first_input_at;

/* What follows from the table. */
static void find_places(void)
{
    first_at = lamps_at(image_ram);
    first_input_at = inputs_at(image_ram);
}

uint8_t lamps_of_sites(void) { return left_over; }

void lamps_start(void)
{
    memset(lamps_plan, 0, sizeof lamps_plan);
    memset(lamps_lit, 0, sizeof lamps_lit);
    lamps_release_all();
    events_lamps();
    find_places();
    left_over = sites_lamps();
}

void lamps_plan_left_over(void)
{
    uint8_t lamps = image_count(AT_LAMPS, CAPACITY_LAMPS);
    if (left_over == lamps)
        return;
    lamps_changed = true;
    for (uint8_t lamp = left_over; lamp < lamps; lamp++)
        bit_put(lamps_plan, lamp, false);
    if (board_master == MASTER_RUN || board_master == MASTER_NIGHT) {
        const uint8_t *indicator = image_bytes + first_input_at + 3;
        for (uint8_t i = 0; i < image_count(AT_INPUTS, CAPACITY_INPUTS); i++, indicator += INPUT_BYTES)
            if (*indicator < CAPACITY_LAMPS && bit_get(inputs_demands, i))
                bit_put(lamps_plan, *indicator, true);
    }
    for (uint8_t i = 0; i < image_count(AT_GROUPS, CAPACITY_GROUPS); i++) {
        uint8_t output = image_bytes[group_at(i) + 6];
        if (output < CAPACITY_LAMPS && groups_pulse(i))
            bit_put(lamps_plan, output, true);
    }
}

void lamps_plan_only(uint8_t lamp)
{
    lamps_changed = true;
    memset(lamps_plan, 0, sizeof lamps_plan);
    if (lamp < CAPACITY_LAMPS)
        bit_put(lamps_plan, lamp, true);
}

void lamps_commit(void)
{
    bool any = false;
    lamps_changed = false;
    for (uint8_t b = 0; b < LAMP_BITS; b++) {
        uint8_t want = (uint8_t)((lamps_plan[b] & ~forced[b]) | forced_on[b]);
        uint8_t changed = want ^ lamps_lit[b];
        if (!changed)
            continue;
        lamps_lit[b] = want;
        any = true;
        const uint8_t *record = image_bytes + first_at + 16 * b;
        for (; changed; changed >>= 1, want >>= 1, record += LAMP_BYTES)
            if (changed & 1)
                hal_output(record[0], ((want & 1) != 0) != ((record[1] & LAMP_ACTIVE_LOW) != 0));
    }
    if (!any)
        return;
    hal_outputs_commit();
    events_lamps();
}

void lamps_renew(uint8_t eight)
{
    uint8_t lit = lamps_lit[eight], lamps = image_bytes[AT_LAMPS];
    find_places();
    const uint8_t *record = image_bytes + first_at + 16 * eight;
    for (uint8_t i = (uint8_t)(8 * eight); i < lamps && i < 8 * eight + 8; i++, lit >>= 1, record += LAMP_BYTES)
        hal_output(record[0], (lit & 1) != ((record[1] & LAMP_ACTIVE_LOW) != 0));
}

static void untime(uint8_t lamp)
{
    if (lamp == timed)
        timed_left = 0;
}

void lamps_force(uint8_t lamp, bool lit)
{
    untime(lamp);
    lamps_changed = true;
    bit_put(forced, lamp, true);
    bit_put(forced_on, lamp, lit);
}

void lamps_time(uint8_t lamp, uint16_t ms)
{
    if (timed_left)
        lamps_force(timed, false);
    lamps_force(lamp, true);
    timed = lamp;
    timed_left = (uint16_t)(ms + 1);
}

void lamps_tick(void)
{
    if (timed_left && !--timed_left)
        lamps_force(timed, false);
}

void lamps_release(uint8_t lamp)
{
    untime(lamp);
    lamps_changed = true;
    bit_put(forced, lamp, false);
    bit_put(forced_on, lamp, false);
}

void lamps_release_all(void)
{
    timed_left = 0;
    lamps_changed = true;
    memset(forced, 0, sizeof forced);
    memset(forced_on, 0, sizeof forced_on);
}

static bool any(const uint8_t *bits)
{
    uint8_t found = 0;
    for (uint8_t b = 0; b < LAMP_BITS; b++)
        found |= bits[b];
    return found != 0;
}

bool lamps_forced(void) { return any(forced); }
bool lamps_any_lit(void) { return any(lamps_lit); }
