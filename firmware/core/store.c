#include "store.h"

#include "check.h"
#include "crc.h"
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

static bool store_fault;
static bool unkept;
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

uint8_t store_mark(uint8_t slot)
{
    uint8_t crc = 0;
    for (uint8_t i = 0; i < RECORD_MARK; i++)
        crc = crc8_byte(crc, hal_eeprom_read((uint16_t)(record_at(slot) + i)));
    return crc ^ STORE_MARK_SECRET;
}

bool store_mark_fits(uint8_t slot)
{
    return hal_eeprom_read((uint16_t)(record_at(slot) + RECORD_MARK)) == store_mark(slot);
}

static uint16_t sequence_of(uint8_t slot) { return source_word(eeprom, record_at(slot)); }
uint16_t store_image_crc(uint8_t slot) { return source_word(eeprom, (uint16_t)(record_at(slot) + 4)); }
static uint16_t length_of(uint8_t slot) { return source_word(eeprom, (uint16_t)(record_at(slot) + 2)); }

/* The record counts: its length is possible and its CRC is that of the slot. */
static bool counts(uint8_t slot)
{
    uint16_t length = length_of(slot), crc = CRC16_START;
    if (length < HEADER_BYTES || length > CAPACITY_IMAGE)
        return false;
    for (uint16_t i = 0; i < length; i++)
        crc = crc16_byte(crc, store_source(slot)(i));
    hal_watchdog();
    return crc == store_image_crc(slot);
}

static bool consistent(uint8_t slot)
{
    struct check check;
    check_start(&check, store_source(slot), length_of(slot));
    while (check_step(&check))
        hal_watchdog();
    return !check.code;
}

static void load(uint8_t slot)
{
    store_newest = slot;
    store_length = image_length = length_of(slot);
    for (uint16_t i = 0; i < image_length; i++)
        image_bytes[i] = store_source(slot)(i);
    image_shape = walk_shape(image_ram, image_length);
}

bool store_boot(void)
{
    bool usable[2];
    store_label_good = store_check_label();
    for (uint8_t slot = 0; slot < 2; slot++) {
        bool fits = store_mark_fits(slot);
        usable[slot] = fits && counts(slot);
        store_fault |= fits && !usable[slot];
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
        if (consistent(slot)) {
            load(slot);
            return true;
        }
        store_fault = true;
    }
    return false;
}

uint16_t store_label_crc(image_source source)
{
    uint16_t crc = CRC16_START;
    for (uint8_t i = 0; i < LABEL_BYTES - 2; i++)
        crc = crc16_byte(crc, source(i));
    return crc;
}

bool store_check_label(void)
{
    return eeprom(0) == 'A' && eeprom(1) == 'w' && eeprom(2) == STORE_VERSION
           && store_label_crc(eeprom) == source_word(eeprom, LABEL_BYTES - 2);
}

uint8_t store_flags(void)
{
    return (uint8_t)((unkept ? FLAG_UNKEPT : 0) | (store_fault ? FLAG_STORE_FAULT : 0)
                     | (store_label_good ? 0 : FLAG_LABEL_FAULT));
}

void store_differs(void)
{
    unkept = image_length != 0;
    compared = image_length == store_length && store_newest != SLOT_NONE ? 0 : NOT_COMPARING;
}

void store_agrees(void)
{
    unkept = false;
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
