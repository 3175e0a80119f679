#include "guard.h"

#include "board.h"
#include "crc.h"
#include "events.h"
#include "image.h"
#include "jobs.h"
#include "lamps.h"
#include "possible.h"
#include "sites.h"
#include "store.h"

#define BYTES_A_SLICE 8
/* In the first of these 64 times 4.096 s the kept image has its turn. */
#define STORE_TURN(now) (((uint8_t)((now) >> 12) & 63) == 0)

uint16_t guard_sum;
uint8_t guard_deeds;
uint8_t guard_faults;
uint8_t guard_last;

/* How far the round has come: in the image, from KEPT on in the kept one, from
 * LAMPS on in groups of eight lamps. */
#define LAMPS 0x4000u
#define KEPT 0x8000u
#define DAMAGED 0xFFFFu
static uint16_t at;
static uint16_t crc;

static void deed(uint8_t which)
{
    guard_deeds |= (uint8_t)(0x10 << which);
    events_deed(which);
}

void guard_note_fault(uint8_t site, uint8_t fault)
{
    guard_last = (uint8_t)(site | fault << 5);
    if (guard_faults < 255)
        guard_faults++;
}

void guard_image(uint16_t sum)
{
    guard_sum = sum;
    at = 0;
}

/* What CRC register `a` becomes when `bytes` zeros go through it: a times
 * x^(8 * bytes). The table has x^8, its square, and so on. */
static uint16_t through_zeros(uint16_t a, uint16_t bytes)
{
    static const IN_FLASH uint16_t squares[] = {
        0x0100, 0x1021, 0x3730, 0xB861, 0xAEFC, 0x8E29, 0x13FC, 0x36C4, 0xFD50, 0xAA9E, 0x881C,
    };
    for (uint8_t i = 0; bytes; i++, bytes >>= 1) {
        if (!(bytes & 1))
            continue;
        uint16_t b = squares[i], product = 0;
        for (uint8_t bit = 16; bit; bit--, b <<= 1) {
            product = (uint16_t)(product & 0x8000 ? product << 1 ^ 0x1021 : product << 1);
            if (b & 0x8000)
                product ^= a;
        }
        a = product;
    }
    return a;
}

/* Never adopted from RAM: the CRC moves by what the word changes, so damage
 * elsewhere is still found afterwards. */
void guard_put_word(uint16_t to, uint16_t word)
{
    uint16_t change = image_word(to) ^ word;
    if (!change)
        return;
    image_bytes[to] = (uint8_t)word;
    image_bytes[to + 1] = (uint8_t)(word >> 8);
    guard_sum ^= through_zeros((uint16_t)(change << 8 | change >> 8), (uint16_t)(image_length - to));
    if (at < LAMPS)
        at = 0;
}

void guard_damaged(void) { at = DAMAGED; }

void guard_job_begins(void)
{
    if (at & KEPT && at != DAMAGED)
        at = 0;
}

/* What is damaged cannot say what its lamps should show, so the whole board
 * starts again from what is kept, as after a watchdog: first at fault, then by
 * itself. Where nothing is kept whole it is dark, which needs no table. */
static void mend(void)
{
    if (store_again()) {
        board_start_table();
        for (uint8_t i = 0; i < sites_count; i++)
            sites_fault(i, FAULT_TABLE);
        deed(DEED_RELOADED);
    } else {
        board_stop_table();
        deed(DEED_STOPPED);
    }
    at = 0;
}

void guard_kept(uint8_t code)
{
    if (code)
        store_damaged();
    deed(code ? DEED_DAMAGED : DEED_RENEWED);
}

/* The kept image is damaged. Once it could not be renewed the board leaves it:
 * each try wears the memory. */
static void renew(void)
{
    if (guard_deeds & 0x10 << DEED_DAMAGED || jobs_upload_begun())
        return;
    if (store_flags() & FLAG_UNKEPT)
        guard_kept(CODE_STORE_FAILED);
    else
        jobs_keep_anew();
}

static void look_at_kept(void)
{
    if (!jobs_idle() || !hal_eeprom_ready())
        return;
    uint16_t from = at & ~KEPT;
    image_source source = store_source(store_newest);
    for (uint8_t i = 0; i < BYTES_A_SLICE && from < store_length; i++)
        crc = crc16_byte(crc, source(from++));
    at = KEPT | from;
    if (from < store_length)
        return;
    at = LAMPS;
    if (!store_counts(crc))
        renew();
}

static void look_at_image(void)
{
    for (uint8_t i = 0; i < BYTES_A_SLICE && at < image_length; i++)
        crc = crc16_byte(crc, image_bytes[at++]);
    if (at < image_length)
        return;
    at = crc == guard_sum ? LAMPS : DAMAGED;
    if (at == LAMPS && store_newest != SLOT_NONE && STORE_TURN(board_now)) {
        at = KEPT;
        crc = CRC16_START;
    }
}

/* Outputs are written anew from a table just found whole: what disturbed a port
 * or a chip of the chain lasts no longer than a round. */
static void look_at_lamps(void)
{
    uint8_t eight = (uint8_t)at;
    if (eight < LAMP_BITS) {
        lamps_renew(eight);
        at++;
        return;
    }
    hal_outputs_commit();
    board_release_if_alone();
    at = 0;
}

/* A table that is none, longer than it can be, or of other sites. */
static bool misfit(void)
{
    return image_length > CAPACITY_IMAGE || (image_length ? sites_count != image_bytes[AT_SITES] : image_bytes[AT_FORMAT]);
}

static void look(void)
{
    if (misfit())
        at = DAMAGED;
    if (at == DAMAGED) {
        if (jobs_idle() && hal_eeprom_ready())
            mend();
        return;
    }
    if (!image_length)
        return;
    if (at == 0)
        crc = CRC16_START;
    if (at < LAMPS)
        look_at_image();
    else if (at < KEPT)
        look_at_lamps();
    else
        look_at_kept();
}

void guard_poll(void)
{
    uint8_t now = (uint8_t)board_now;
    if (now & 7)
        return;
    look();
    uint8_t site = (uint8_t)((uint16_t)board_now >> 6) & (CAPACITY_SITES - 1);
    if (!(now & 63) && site < sites_count)
        site_look(site);
}
