#include "sites.h"

#include "board.h"
#include "events.h"
#include "image.h"
#include "rules.h"

struct site sites[CAPACITY_SITES];
uint8_t sites_count;

#define SEED 0xACE1u
#define SEED_STEP 0x9E37u

uint16_t sites_dial_at(const struct site *site, uint8_t dial)
{
    return (uint16_t)(site->record_at + SITE_BYTES + image_bytes[site->program_at + PROGRAM_INPUTS] + 2 * dial);
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
    site->flags = (uint8_t)((site->flags & ~(SITE_DELAYED | SITE_STEPPED)) | SITE_CHANGED);
    events_fault(i);
    hal_note_fault(i, fault);
}

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
    if (row < site->row)
        first_row(site);
    while (site->row < row)
        next_row(site);
}

static void act(struct site *site, const uint8_t *row, uint8_t operation)
{
    if (operation == OP_JUMP) {
        if (rules_condition(site, row[1] & 15, row[2])) {
            go_to(site, row[3]);
            return;
        }
    } else if (operation == OP_CLEAR) {
        rules_clear(site, row[1]);
    } else {
        rules_latch(site, row[1]);
    }
    next_row(site);
}

static void enter(struct site *site, uint8_t i, uint8_t operation)
{
    events_row(i);
    site->begin = board_now;
    site->gap = (uint16_t)board_now;
    site->flags = (uint8_t)((site->flags & ~(SITE_LAPSED | SITE_MAXIMUM)) | SITE_CHANGED);
    rules_enter(site, operation);
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
            if (start)
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
            rules_leave(site, row, leave);
            next_row(site);
        } else {
            act(site, row, operation);
        }
    }
}

void sites_again(uint8_t i)
{
    struct site *site = &sites[i];
    const uint8_t *record = image_bytes + site->record_at;
    site->fault = FAULT_NONE;
    site->flags = (uint8_t)((site->flags & SITE_HELD) | SITE_CHANGED);
    first_row(site);
    go_to(site, record[1]);
    run_rows(site, i, true, false);
    uint32_t offset = word_ms(image_word(site->record_at + 2));
    if (offset && !site->fault) {
        site->begin += offset;
        site->gap = (uint16_t)site->begin;
        site->flags |= SITE_DELAYED;
    }
}

void sites_again_all(void)
{
    for (uint8_t i = 0; i < sites_count; i++)
        sites_again(i);
}

void sites_start(void)
{
    uint16_t at = program_at(image_ram, image_bytes[AT_PROGRAMS]);
    uint8_t lamp = 0;
    uint16_t seed = 0;
    sites_count = image_bytes[AT_SITES];
    for (uint8_t i = 0; i < sites_count; i++, seed += SEED_STEP) {
        struct site *site = &sites[i];
        site->record_at = at;
        site->program_at = program_at(image_ram, image_bytes[at]);
        site->first_lamp = lamp;
        site->flags = 0;
        site->generator = SEED ^ seed ? SEED ^ seed : 1;
        const uint8_t *program = image_bytes + site->program_at;
        lamp += program[PROGRAM_LAMPS];
        at = (uint16_t)(sites_dial_at(site, program[PROGRAM_DIALS]));
    }
    sites_again_all();
}

static void stand_still(struct site *site)
{
    site->begin++;
    site->gap++;
    site->maximum++;
}

static void tick(struct site *site, uint8_t i, bool paused)
{
    bool stepped = site->flags & SITE_STEPPED;
    if (site->fault)
        return;
    if ((paused || site->flags & SITE_HELD) && !stepped) {
        stand_still(site);
        return;
    }
    /* A time of 2^31 ms or more behind the begin is one before it, unless it
     * has grown so: then the begin goes along. */
    int32_t elapsed = (int32_t)(board_now - site->begin);
    if (site->flags & SITE_DELAYED) {
        if (elapsed < 0 && !stepped)
            return;
        site->flags = (uint8_t)((site->flags & ~SITE_DELAYED) | SITE_CHANGED);
    } else if (elapsed < 0) {
        site->begin++;
    }
    site->flags &= (uint8_t)~SITE_STEPPED;
    run_rows(site, i, false, stepped);
}

void sites_tick(bool paused)
{
    for (uint8_t i = 0; i < sites_count; i++)
        tick(&sites[i], i, paused);
}

void sites_hold(uint8_t i, bool held)
{
    if (held)
        sites[i].flags |= SITE_HELD;
    else
        sites[i].flags &= (uint8_t)~SITE_HELD;
}

void sites_release_all(void)
{
    for (uint8_t i = 0; i < sites_count; i++)
        sites_hold(i, false);
}

void sites_step(uint8_t i)
{
    if (!sites[i].fault)
        sites[i].flags |= SITE_STEPPED;
}

bool sites_any_fault(void)
{
    for (uint8_t i = 0; i < sites_count; i++)
        if (sites[i].fault)
            return true;
    return false;
}

uint8_t sites_lamps(void)
{
    uint8_t lamps = 0;
    for (uint8_t i = 0; i < sites_count; i++)
        lamps += image_bytes[sites[i].program_at + PROGRAM_LAMPS];
    return lamps;
}

int32_t sites_elapsed(uint8_t i) { return (int32_t)(board_now - sites[i].begin); }

bool sites_waiting(uint8_t i)
{
    const struct site *site = &sites[i];
    uint8_t first = image_bytes[site->row_at], operation = first & 15;
    if (site->fault || site->flags & SITE_DELAYED || operation == OP_AFTER || operation == OP_RANDOM)
        return false;
    return (uint32_t)sites_elapsed(i) >= sites_dial_ms(site, first >> 4);
}
