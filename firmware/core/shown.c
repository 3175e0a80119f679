#include "shown.h"

#include "bits.h"
#include "board.h"
#include "guard.h"
#include "image.h"
#include "lamps.h"
#include "possible.h"
#include "sites.h"

/* The packed states that a site shows, or 0 when all its lamps are dark. */
static const uint8_t *states(const struct site *site)
{
    const uint8_t *program = image_bytes + site->program_at;
    const uint8_t *fault = program + PROGRAM_BYTES + 4 * program[PROGRAM_DIALS];
    const uint8_t *safe = fault + aspect_bytes(program[PROGRAM_LAMPS]);
    if (board_master == MASTER_OFF)
        return 0;
    if (board_master == MASTER_SAFE)
        return safe;
    if (site->flags & SITE_FAULT)
        return sites_clearing(site_at_hand) ? safe : fault;
    if (board_master == MASTER_NIGHT) {
        switch (image_bytes[site_record + 4] & 3) {
        case AT_NIGHT_FAULT: return fault;
        case AT_NIGHT_SAFE: return safe;
        case AT_NIGHT_DARK: return 0;
        }
    }
    const uint8_t *row = image_bytes + site->row_at;
    return row + 1 + row_extra(row[0] & 15);
}

/* How long the running part of flashing lasts, ms. */
static uint16_t part_ms(const struct site *site)
{
    uint8_t dials = image_bytes[site->program_at + PROGRAM_FLASH];
    if (dials == (NO_DIAL << 4 | NO_DIAL))
        return DEFAULT_FLASH_MS;
    return (uint16_t)sites_dial_ms(site, site->flags & SITE_LIT_PART ? dials >> 4 : dials & 15);
}

/* State 2 or 3 among so many packed states. */
static bool any_flashing(const uint8_t *packed, uint8_t lamps)
{
    for (; lamps > 4; lamps -= 4)
        if (*packed++ & 0xAA)
            return true;
    return *packed & 0xAA & (uint8_t)(bit_mask(2 * (lamps - 1) + 1) | (bit_mask(2 * (lamps - 1) + 1) - 1));
}

/* Puts the site's lamps into the plan. Bit s of `lit` says that state s is lit. */
static void plan(const struct site *site, const uint8_t *packed, uint8_t lit)
{
    uint8_t lamps = image_bytes[site->program_at + PROGRAM_LAMPS];
    uint8_t most = (uint8_t)(image_bytes[AT_LAMPS] - site_first_lamp);
    if (lamps > most)
        lamps = most;
    uint8_t *byte = lamps_plan + (site_first_lamp >> 3);
    uint8_t mask = bit_mask(site_first_lamp), four = 0;
    lamps_changed = true;
    for (uint8_t i = 0; i < lamps && byte < lamps_plan + LAMP_BITS; i++, four >>= 2) {
        if (!(i & 3))
            four = packed ? *packed++ : 0;
        if (lit & bit_mask(four & 3))
            *byte |= mask;
        else
            *byte &= (uint8_t)~mask;
        mask <<= 1;
        if (!mask) {
            mask = 1;
            byte++;
        }
    }
}

#define LIT_STATES(lit, flash, alternate) \
    ((lit) << STATE_LIT | (flash) << STATE_FLASH | (alternate) << STATE_ALTERNATE)

static void show(struct site *site)
{
    const uint8_t *packed = states(site);
    uint8_t lit = LIT_STATES(1, 0, 0);
    if (packed && any_flashing(packed, image_bytes[site->program_at + PROGRAM_LAMPS])
        && !(site->flags & SITE_DELAYED)) {
        if (!(site->flags & SITE_FLASHING)) {
            site->flags |= SITE_FLASHING | SITE_LIT_PART;
            site->part = (uint16_t)board_now;
        }
        lit = site->flags & SITE_LIT_PART ? LIT_STATES(1, 1, 0) : LIT_STATES(1, 0, 1);
    } else {
        site->flags &= (uint8_t)~SITE_FLASHING;
    }
    plan(site, packed, lit);
}

static bool breach(const struct site *site)
{
    const uint8_t *program = image_bytes + site->program_at;
    const uint8_t *pair = program + PROGRAM_BYTES + 4 * program[PROGRAM_DIALS]
                          + 2 * aspect_bytes(program[PROGRAM_LAMPS]);
    for (uint8_t i = program[PROGRAM_PAIRS]; i; i--, pair += 2)
        if (bit_get(lamps_plan, site_first_lamp + pair[0]) && bit_get(lamps_plan, site_first_lamp + pair[1]))
            return true;
    return false;
}

static void tick(struct site *site, uint8_t i, bool anew)
{
    sites_select(i);
    if (site->flags & SITE_FLASHING && (uint16_t)((uint16_t)board_now - site->part) >= part_ms(site)) {
        site->flags ^= SITE_LIT_PART;
        site->flags |= SITE_CHANGED;
        site->part = (uint16_t)board_now;
    }
    if (!anew && !(site->flags & SITE_CHANGED))
        return;
    if (site->program_at != sites_program(image_bytes[site_record]))
        site_look(i);
    site->flags &= (uint8_t)~SITE_CHANGED;
    show(site);
    if (!breach(site))
        return;
    if (!(site->flags & SITE_FAULT)) {
        sites_fault(i, FAULT_CONFLICT);
        show(site);
    }
    /* Only a damaged table gets here with a breach: then rather dark. */
    if (breach(site))
        plan(site, 0, 0);
}

/* A site with a wrong program would plan the lamps of others, too. The lamps of
 * all sites together tell that; nothing is planned until they fit. */
static bool lamps_fit(void)
{
    if (sites_lamps() == lamps_of_sites())
        return true;
    for (uint8_t i = 0; i < sites_count && i < CAPACITY_SITES; i++)
        site_look(i);
    if (sites_lamps() == lamps_of_sites())
        return true;
    guard_damaged();
    return false;
}

void shown_tick(bool anew)
{
    struct site *site = sites;
    bool any = anew;
    for (uint8_t i = 0; i < sites_count && i < CAPACITY_SITES; i++)
        any |= (sites[i].flags & SITE_CHANGED) != 0;
    if (any && !lamps_fit())
        return;
    for (uint8_t i = 0; i < sites_count && i < CAPACITY_SITES; i++, site++)
        if (anew || site->flags & (SITE_CHANGED | SITE_FLASHING))
            tick(site, i, anew);
}
