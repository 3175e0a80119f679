#include "sites.h"

#include <string.h>

#include "bits.h"
#include "board.h"
#include "events.h"
#include "groups.h"
#include "guard.h"
#include "image.h"
#include "inputs.h"
#include "rules.h"

struct site sites[CAPACITY_SITES];
uint8_t sites_count;
uint8_t site_at_hand;
uint16_t site_record;
uint8_t site_first_lamp;

static uint16_t first_record;
static bool any_held;
static uint8_t held[(CAPACITY_SITES + 7) / 8];
/* Two bits a site: how often it has come back by itself in this span. */
static uint8_t returns[CAPACITY_SITES / 4];

#define SEED 0xACE1u
#define SEED_STEP 0x9E37u

static void go_to_first(void)
{
    site_at_hand = 0;
    site_record = first_record;
    site_first_lamp = 0;
}

uint16_t sites_program(uint8_t program)
{
    uint16_t at = group_at(image_bytes[AT_GROUPS]);
    while (program--)
        at = (uint16_t)(at + image_word(at));
    return at;
}

void sites_find_first(void)
{
    first_record = sites_program(image_bytes[AT_PROGRAMS]);
    go_to_first();
}

void sites_go_to(uint8_t i)
{
    if (i < site_at_hand)
        go_to_first();
    const struct site *site = &sites[site_at_hand];
    for (; site_at_hand < i; site_at_hand++, site++) {
        const uint8_t *program = image_bytes + site->program_at;
        site_record += SITE_BYTES + program[PROGRAM_INPUTS] + (uint8_t)(2 * program[PROGRAM_DIALS]);
        site_first_lamp += program[PROGRAM_LAMPS];
    }
}

uint16_t sites_dial_at(const struct site *site, uint8_t dial)
{
    return (uint16_t)(site_record + SITE_BYTES + image_bytes[site->program_at + PROGRAM_INPUTS] + 2 * dial);
}

uint32_t sites_dial_ms(const struct site *site, uint8_t dial)
{
    return word_ms(image_word(sites_dial_at(site, dial)));
}

void sites_fault(uint8_t i, uint8_t fault)
{
    struct site *site = &sites[i];
    site->fault = fault;
    site->begin = board_now;
    site->flags = (uint8_t)((site->flags & ~(SITE_DELAYED | SITE_STEPPED)) | SITE_CHANGED | SITE_FAULT);
    events_fault(i);
    guard_note_fault(i, fault);
    hal_note_fault(i, fault);
}

static uint8_t returns_of(uint8_t i)
{
    return (uint8_t)(bit_get(returns, (uint8_t)(2 * i)) | bit_get(returns, (uint8_t)(2 * i + 1)) << 1);
}

static void set_returns(uint8_t i, uint8_t count)
{
    bit_put(returns, (uint8_t)(2 * i), count & 1);
    bit_put(returns, (uint8_t)(2 * i + 1), count & 2);
}

bool sites_stays(uint8_t i) { return sites[i].flags & SITE_FAULT && returns_of(i) == FAULT_RETURN_TIMES; }

void sites_forgive(void)
{
    for (uint8_t i = 0; i < CAPACITY_SITES; i++)
        if (!sites_stays(i))
            set_returns(i, 0);
}

bool sites_clearing(uint8_t i) { return board_now - sites[i].begin >= FAULT_RETURN_SHOW && !sites_stays(i); }

static void first_row(struct site *site)
{
    const uint8_t *program = image_bytes + site->program_at;
    site->row = 0;
    site->row_at = (uint16_t)(site->program_at + PROGRAM_BYTES + 4 * program[PROGRAM_DIALS]
                              + 2 * aspect_bytes(program[PROGRAM_LAMPS]) + 2 * program[PROGRAM_PAIRS]);
}

static void next_row(struct site *site)
{
    const uint8_t *program = image_bytes + site->program_at;
    if (site->row + 1 == program[PROGRAM_ROWS]) {
        first_row(site);
        return;
    }
    uint8_t operation = image_bytes[site->row_at] & 15;
    site->row++;
    site->row_at = (uint16_t)(site->row_at + 1 + row_extra(operation)
                              + (operation <= OP_SYNC ? aspect_bytes(program[PROGRAM_LAMPS]) : 0));
}

/* Rows differ in length, so a row is found by going through those before it. */
static void go_to(struct site *site, uint8_t row)
{
    /* No such row: only from a damaged table. */
    if (row >= image_bytes[site->program_at + PROGRAM_ROWS])
        row = 0;
    if (row < site->row)
        first_row(site);
    while (site->row < row)
        next_row(site);
}

void sites_find_row(struct site *site, uint8_t row)
{
    first_row(site);
    go_to(site, row);
}

static void act(struct site *site, const uint8_t *row, uint8_t operation)
{
    if (operation == OP_JUMP) {
        if (rules_condition(site, row[1] & 15, row[2])) {
            go_to(site, row[3]);
            return;
        }
    } else if (operation == OP_CLEAR) {
        rules_clear(row[1]);
    } else {
        rules_latch(row[1]);
    }
    next_row(site);
}

static void enter(struct site *site, uint8_t i, uint8_t operation)
{
    events_row(i);
    site->begin = board_now;
    site->flags = (uint8_t)((site->flags & ~(SITE_LAPSED | SITE_MAXIMUM)) | SITE_CHANGED);
    rules_enter(site, operation, image_bytes + site->row_at);
    rules_set_wait(site);
    hal_note_interval(i, site->row);
}

/* Does actions and leaves intervals until one of them holds. `arriving`: the
 * row has not been entered; `stepped`: the first interval is left anyway. */
static void run_rows(struct site *site, uint8_t i, bool arriving, bool stepped)
{
    bool start = arriving;
    for (uint8_t steps = 0;; steps++) {
        const uint8_t *row = image_bytes + site->row_at;
        uint8_t operation = row[0] & 15, leave = LEAVE;
        if (operation > OP_LATCH) {
            sites_fault(i, FAULT_TABLE);
            return;
        }
        if (operation <= OP_SYNC) {
            if (arriving)
                enter(site, i, operation);
            /* A row just entered holds for its minimum at least. */
            if (start || (arriving && operation != OP_EXTEND && site->wait))
                return;
            if (!stepped)
                leave = rules_look(site, row, operation);
            if (leave == STAY)
                return;
        }
        if (steps == MAX_STEPS) {
            sites_fault(i, FAULT_STUCK);
            return;
        }
        arriving = true;
        if (operation <= OP_SYNC) {
            stepped = false;
            rules_leave(row, leave);
            next_row(site);
        } else {
            act(site, row, operation);
        }
    }
}

static uint8_t operation_of(const struct site *site) { return image_bytes[site->row_at] & 15; }

static void again(uint8_t i)
{
    struct site *site = &sites[i];
    sites_select(i);
    site->flags = SITE_CHANGED;
    sites_find_row(site, image_bytes[site_record + 1]);
    run_rows(site, i, true, false);
    uint32_t offset = word_ms(image_word(site_record + 2));
    if (!offset || site->flags & SITE_FAULT)
        return;
    site->begin += offset;
    site->flags |= SITE_DELAYED;
    if (operation_of(site) == OP_EXTEND)
        site->gap = (uint16_t)site->begin;
}

void sites_again(uint8_t i)
{
    set_returns(i, 0);
    again(i);
}

void sites_again_all(void)
{
    for (uint8_t i = 0; i < sites_count; i++)
        sites_again(i);
}

void sites_start(void)
{
    uint16_t seed = 0;
    sites_count = image_bytes[AT_SITES];
    sites_find_first();
    sites_release_all();
    for (uint8_t i = 0; i < sites_count; i++, seed += SEED_STEP) {
        struct site *site = &sites[i];
        sites_select(i);
        site->program_at = sites_program(image_bytes[site_record]);
        site->generator = SEED ^ seed ? SEED ^ seed : 1;
    }
    sites_again_all();
}

static bool is_until(uint8_t operation) { return operation == OP_UNTIL || operation == OP_UNTIL_MAX; }

/* Marks go along with the time; what stirs meanwhile is looked at afterwards. */
static void stand_still(struct site *site)
{
    uint8_t operation = operation_of(site);
    site->begin++;
    if (is_until(operation)) {
        site->wait = 0;
    } else if (operation == OP_EXTEND) {
        site->gap++;
        site->maximum++;
    }
}

static void tick(struct site *site, uint8_t i, bool paused)
{
    uint8_t flags = site->flags;
    if ((paused || sites_held(i)) && !(flags & SITE_STEPPED)) {
        stand_still(site);
        return;
    }
    int32_t elapsed = (int32_t)(board_now - site->begin);
    if (flags & SITE_DELAYED) {
        if (elapsed < 0 && !(flags & SITE_STEPPED))
            return;
        site->flags = (uint8_t)((flags & ~SITE_DELAYED) | SITE_CHANGED);
    } else if (elapsed < 0) {
        /* It has waited for 2^31 ms: its begin goes along, so that it stays past
         * its minimum. */
        site->begin++;
    }
    site->flags &= (uint8_t)~SITE_STEPPED;
    sites_select(i);
    run_rows(site, i, false, flags & SITE_STEPPED);
}

/* Most sites in most ticks: nothing can end yet. */
static inline bool idle(const struct site *site)
{
    if (site->flags & (SITE_DELAYED | SITE_STEPPED) || board_now - site->begin >= site->wait)
        return false;
    uint8_t operation = operation_of(site);
    return operation != OP_EXTEND && !(inputs_stir && is_until(operation));
}

/* First its fault aspect, then its safe aspect, so that no green follows a fault
 * at once; then it starts. */
static void at_fault(struct site *site, uint8_t i, bool paused)
{
    uint32_t elapsed = board_now - site->begin;
    if (elapsed == FAULT_RETURN_SHOW)
        site->flags |= SITE_CHANGED;
    if (elapsed < FAULT_RETURN_SHOW + FAULT_RETURN_CLEAR || sites_stays(i) || paused || sites_held(i))
        return;
    set_returns(i, (uint8_t)(returns_of(i) + 1));
    again(i);
    if (!(site->flags & SITE_FAULT))
        events_fault(i);
}

void sites_tick(bool paused)
{
    bool still = paused || any_held;
    struct site *site = sites;
    for (uint8_t i = 0; i < sites_count && i < CAPACITY_SITES; i++, site++)
        if (site->flags & SITE_FAULT)
            at_fault(site, i, paused);
        else if (still || !idle(site))
            tick(site, i, paused);
}

void sites_dials_changed(uint8_t i)
{
    sites_select(i);
    if (!(sites[i].flags & SITE_FAULT))
        rules_set_wait(&sites[i]);
}

void sites_all_dials_changed(void)
{
    for (uint8_t i = 0; i < sites_count; i++)
        sites_dials_changed(i);
}

void sites_hold(uint8_t i, bool on)
{
    bit_put(held, i, on);
    any_held |= on;
}

bool sites_held(uint8_t i) { return bit_get(held, i); }

void sites_release_all(void)
{
    memset(held, 0, sizeof held);
    any_held = false;
}

void sites_step(uint8_t i)
{
    if (!(sites[i].flags & SITE_FAULT))
        sites[i].flags |= SITE_STEPPED;
}

uint8_t sites_fault_of(uint8_t i) { return sites[i].flags & SITE_FAULT ? sites[i].fault : FAULT_NONE; }

bool sites_any_fault(void)
{
    for (uint8_t i = 0; i < sites_count; i++)
        if (sites[i].flags & SITE_FAULT)
            return true;
    return false;
}

uint8_t sites_lamps(void)
{
    if (!sites_count)
        return 0;
    uint8_t last = sites_count - 1;
    sites_select(last);
    return site_first_lamp + image_bytes[sites[last].program_at + PROGRAM_LAMPS];
}

int32_t sites_elapsed(uint8_t i) { return (int32_t)(board_now - sites[i].begin); }

bool sites_waiting(uint8_t i)
{
    const struct site *site = &sites[i];
    uint8_t operation = operation_of(site);
    if (site->flags & (SITE_FAULT | SITE_DELAYED) || operation == OP_AFTER || operation == OP_RANDOM)
        return false;
    sites_select(i);
    return (uint32_t)sites_elapsed(i) >= sites_dial_ms(site, image_bytes[site->row_at] >> 4);
}
