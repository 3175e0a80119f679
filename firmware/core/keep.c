/* Keep: the running image becomes the one that the board starts with. */
#include "crc.h"
#include "guard.h"
#include "work.h"

/* The record of the slot: its eight bytes stand in tool.record. */
static void make_record(void)
{
    uint16_t sequence = (uint16_t)(store_keeps + 1);
    uint16_t words[3] = { sequence, image_length, work.crc };
    uint8_t sum = 0;
    for (uint8_t i = 0; i < RECORD_MARK; i++) {
        work.record[i] = (uint8_t)(i & 1 ? words[i >> 1] >> 8 : words[i >> 1]);
        sum = crc8_byte(sum, work.record[i]);
    }
    work.record[RECORD_MARK] = sum ^ STORE_SECRET(STORE_VERSION);
    work.record[RECORD_MARK + 1] = 0;
}

/* Compares the slot with the image; done when they agree and no dial has
 * changed since the writing began. */
static uint8_t read_back(void)
{
    bool same = true;
    for (uint8_t i = 0; i < BYTES_A_SLICE && work.at < image_length && same; i++) {
        uint8_t byte = store_source(work.slot)(work.at);
        same = byte == image_bytes[work.at++];
        work.crc = crc16_byte(work.crc, byte);
    }
    if (work.changes != image_changes) {
        work.changes = image_changes;
        work.step = 0;
        work_next_step();
        return WORKING;
    }
    if (!same)
        return work_refuse(CODE_STORE_FAILED);
    if (work.at < image_length)
        return WORKING;
    /* A table damaged in RAM is not kept; the guard will find it. */
    return work.crc == guard_sum ? DONE : work_refuse(CODE_STORE_FAILED);
}

static uint8_t write_image(void)
{
    for (uint8_t i = 0; i < BYTES_A_SLICE && work.at < image_length; i++, work.at++) {
        uint8_t outcome = work_put((uint16_t)(slot_at(work.slot) + work.at), image_bytes[work.at]);
        if (outcome != DONE)
            return outcome;
    }
    return work.at == image_length ? DONE : WORKING;
}

/* The mark comes last: until then the record does not count. */
static uint8_t write_record(void)
{
    static const IN_FLASH uint8_t order[RECORD_BYTES] = { 0, 1, 2, 3, 4, 5, 7, 6 };
    uint8_t i = order[work.at];
    uint8_t outcome = work_put((uint16_t)(record_at(work.slot) + i), work.record[i]);
    if (outcome != DONE)
        return outcome;
    return ++work.at == RECORD_BYTES ? DONE : WORKING;
}

uint8_t keep_slice(void)
{
    uint8_t outcome;
    switch (work.step) {
    case 0: outcome = work_spoil(work.slot); work.changes = image_changes; break;
    case 1: outcome = write_image(); break;
    case 2: outcome = read_back(); break;
    default: outcome = write_record();
    }
    if (outcome != DONE)
        return outcome;
    if (work.step == 2)
        make_record();
    if (work.step < 3) {
        work_next_step();
        return WORKING;
    }
    store_kept(work.slot);
    if (work.changes != image_changes)
        store_differs();
    return DONE;
}
