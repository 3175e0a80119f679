#include "store.h"

#include <string.h>

#include "check.h"
#include "crc.h"
#include "guard.h"
#include "migrate.h"
#include "walk.h"

#define RECORDS_AT 48
#define SLOTS_AT 64
#define COMPARE_A_STEP 8
#define TRIES 2
#define NOT_COMPARING 0xFFFFu

uint8_t store_newest = SLOT_NONE;
uint16_t store_length;
uint16_t store_keeps;
bool store_label_good;

/* FLAG_STORE_FAULT, FLAG_UNKEPT, and one that is no flag of the board. */
#define NEWER 1
static uint8_t state;
/* How far the comparison of RAM and kept image has come. */
static uint16_t compared = NOT_COMPARING;
static uint8_t tries;

uint16_t slot_at(uint8_t slot) { return slot ? SLOTS_AT + CAPACITY_IMAGE : SLOTS_AT; }
uint16_t record_at(uint8_t slot) { return (uint16_t)(RECORDS_AT + RECORD_BYTES * slot); }

static uint8_t eeprom(uint16_t at) { return hal_eeprom_read(at); }
static uint8_t slot_a(uint16_t at) { return hal_eeprom_read((uint16_t)(SLOTS_AT + at)); }
static uint8_t slot_b(uint16_t at) { return hal_eeprom_read((uint16_t)(SLOTS_AT + CAPACITY_IMAGE + at)); }

image_source store_source(uint8_t slot) { return slot ? slot_b : slot_a; }

uint8_t store_spare(void) { return store_newest == 0 ? 1 : 0; }

uint8_t store_mark(uint8_t slot, uint8_t version)
{
    uint8_t crc = 0;
    for (uint8_t i = 0; i < RECORD_MARK; i++)
        crc = crc8_byte(crc, hal_eeprom_read((uint16_t)(record_at(slot) + i)));
    return crc ^ STORE_SECRET(version);
}

static bool mark_fits(uint8_t slot, uint8_t version)
{
    return hal_eeprom_read((uint16_t)(record_at(slot) + RECORD_MARK)) == store_mark(slot, version);
}

static uint16_t sequence_of(uint8_t slot) { return source_word(eeprom, record_at(slot)); }
uint16_t store_image_crc(uint8_t slot) { return source_word(eeprom, (uint16_t)(record_at(slot) + 4)); }
static uint16_t length_of(uint8_t slot) { return source_word(eeprom, (uint16_t)(record_at(slot) + 2)); }

static uint16_t sum_of(image_source source, uint16_t length)
{
    uint16_t crc = CRC16_START;
    for (uint16_t i = 0; i < length; i++)
        crc = crc16_byte(crc, source(i));
    hal_watchdog();
    return crc;
}

/* The record counts: its length is possible and its CRC is that of the slot. */
static bool counts(uint8_t slot)
{
    uint16_t length = length_of(slot);
    if (length < HEADER_BYTES || length > CAPACITY_IMAGE)
        return false;
    return sum_of(store_source(slot), length) == store_image_crc(slot);
}

static bool consistent(void)
{
    struct check check;
    check_start(&check, image_ram, image_length);
    while (check_step(&check))
        hal_watchdog();
    return !check.code;
}

/* The image of a slot into RAM, brought to our version; false when it cannot be. */
static bool load(uint8_t slot, uint8_t version)
{
    image_length = length_of(slot);
    for (uint16_t i = 0; i < image_length; i++)
        image_bytes[i] = store_source(slot)(i);
    if (migrate_image(version) && consistent()) {
        store_newest = slot;
        store_length = length_of(slot);
        image_shape = walk_shape(image_ram, image_length);
        guard_image(version == STORE_VERSION ? store_image_crc(slot) : sum_of(image_ram, image_length));
        return true;
    }
    image_length = 0;
    memset(image_bytes, 0, HEADER_BYTES);
    return false;
}

/* Loads the newest image that a version of the store has. */
static bool boot(uint8_t version)
{
    bool usable[2];
    for (uint8_t slot = 0; slot < 2; slot++) {
        bool fits = mark_fits(slot, version);
        usable[slot] = fits && counts(slot);
        if (fits && !usable[slot])
            state |= FLAG_STORE_FAULT;
    }
    uint8_t first = usable[1] && (!usable[0] || (int16_t)(sequence_of(1) - sequence_of(0)) > 0);
    if (!usable[first])
        return false;
    /* Keeps go on counting from the newest, even when it cannot be used. */
    store_keeps = sequence_of(first);
    for (uint8_t i = 0; i < 2; i++) {
        uint8_t slot = first ^ i;
        if (!usable[slot])
            continue;
        if (load(slot, version))
            return true;
        state |= FLAG_STORE_FAULT;
    }
    return false;
}

bool store_boot(void)
{
    uint8_t label = store_label_version();
    store_label_good = label;
    if (label > STORE_VERSION) {
        state = NEWER | FLAG_STORE_FAULT;
        return false;
    }
    for (uint8_t version = STORE_VERSION; version > STORE_VERSION - STORE_VERSIONS_READ; version--)
        if (boot(version)) {
            migrate_wanted(version, label);
            return true;
        }
    migrate_wanted(STORE_VERSION, label);
    return false;
}

bool store_again(void)
{
    store_erased();
    return boot(STORE_VERSION);
}

bool store_counts(uint16_t crc)
{
    return mark_fits(store_newest, STORE_VERSION) && length_of(store_newest) == store_length
           && crc == store_image_crc(store_newest);
}

void store_damaged(void) { state |= FLAG_STORE_FAULT; }

uint16_t store_label_crc(image_source source)
{
    uint16_t crc = CRC16_START;
    for (uint8_t i = 0; i < LABEL_BYTES - 2; i++)
        crc = crc16_byte(crc, source(i));
    return crc;
}

uint8_t store_label_version(void)
{
    if (eeprom(0) != 'A' || eeprom(1) != 'w')
        return 0;
    return migrate_label(store_label_crc(eeprom) == source_word(eeprom, LABEL_CRC_AT) ? eeprom(VERSION_AT) : 0);
}

uint8_t store_flags(void)
{
    return (uint8_t)((state & (FLAG_UNKEPT | FLAG_STORE_FAULT)) | (store_label_good ? 0 : FLAG_LABEL_FAULT));
}

bool store_newer(void) { return state & NEWER; }
void store_taken(void) { state &= (uint8_t)~NEWER; }

void store_differs(void)
{
    if (image_length)
        state |= FLAG_UNKEPT;
    else
        state &= (uint8_t)~FLAG_UNKEPT;
    compared = image_length == store_length && store_newest != SLOT_NONE ? 0 : NOT_COMPARING;
}

void store_agrees(void)
{
    state &= (uint8_t)~FLAG_UNKEPT;
    compared = NOT_COMPARING;
}

void store_kept(uint8_t slot)
{
    store_newest = slot;
    store_length = image_length;
    store_keeps++;
    store_agrees();
}

void store_erased(void)
{
    store_newest = SLOT_NONE;
    store_length = 0;
    store_agrees();
}

void store_lost(void)
{
    store_erased();
    store_differs();
    state |= FLAG_STORE_FAULT;
}

bool store_compare(void)
{
    if (compared == NOT_COMPARING || !image_length)
        return false;
    for (uint8_t i = 0; i < COMPARE_A_STEP; i++, compared++) {
        if (compared == image_length) {
            store_agrees();
            return false;
        }
        if (store_source(store_newest)(compared) != image_bytes[compared]) {
            compared = NOT_COMPARING;
            return false;
        }
    }
    return true;
}

enum put store_put(uint16_t at, uint8_t value)
{
    if (hal_eeprom_read(at) == value) {
        tries = 0;
        return PUT_DONE;
    }
    if (tries++ == TRIES) {
        tries = 0;
        return PUT_FAILED;
    }
    hal_eeprom_write(at, value);
    return PUT_WRITING;
}
