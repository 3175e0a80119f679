#include "work.h"

#include "answer.h"
#include "board.h"
#include "crc.h"
#include "guard.h"

struct work work;
struct upload work_upload;

uint8_t work_refuse(uint8_t why)
{
    work.code = why;
    work.place = PLACE_NONE;
    return REFUSED;
}

void work_next_step(void)
{
    work.step++;
    work.at = 0;
    work.crc = CRC16_START;
}

uint8_t work_put(uint16_t to, uint8_t value)
{
    switch (store_put(to, value)) {
    case PUT_DONE: return DONE;
    case PUT_WRITING: return WRITING;
    default: return work_refuse(CODE_STORE_FAILED);
    }
}

uint8_t work_spoil(uint8_t which)
{
    uint8_t mark = store_mark(which, STORE_VERSION);
    uint16_t to = (uint16_t)(record_at(which) + RECORD_MARK);
    uint8_t spoilt = (uint8_t)~mark;
    uint8_t has = hal_eeprom_read(to);
    /* What a newer version has for a mark cannot be known. */
    if (has != mark && has != spoilt && !store_newer())
        return DONE;
    return work_put(to, spoilt);
}

static uint8_t label_of_ours(uint16_t at) { return at == VERSION_AT ? STORE_VERSION : hal_eeprom_read(at); }

uint8_t work_take_over(void)
{
    if (!store_newer())
        return DONE;
    uint16_t crc = store_label_crc(label_of_ours);
    uint8_t outcome = work_put(VERSION_AT, STORE_VERSION);
    if (outcome == DONE)
        outcome = work_put(LABEL_CRC_AT, (uint8_t)crc);
    if (outcome == DONE)
        outcome = work_put(LABEL_CRC_AT + 1, (uint8_t)(crc >> 8));
    if (outcome == DONE)
        store_taken();
    return outcome;
}

uint8_t work_sum_slot(uint8_t which, uint16_t length)
{
    image_source source = store_source(which);
    for (uint8_t i = 0; i < BYTES_A_SLICE && work.at < length; i++)
        work.crc = crc16_byte(work.crc, source(work.at++));
    return work.at == length ? DONE : WORKING;
}

uint8_t work_sum_walk(void)
{
    for (uint8_t i = 0; i < BYTES_A_SLICE; i++) {
        if (!walk_more(&work.walk))
            return DONE;
        uint8_t byte = work.walk.source(work.walk.at++);
        work.crc = crc16_byte(work.crc, byte);
        if (!work.walk.dial)
            work.shape = crc16_byte(work.shape, byte);
    }
    return WORKING;
}

void work_begin_walk(image_source source, uint16_t length)
{
    work_next_step();
    work.shape = CRC16_START;
    walk_start(&work.walk, source, length);
}

void work_load(uint8_t which, uint16_t length, uint16_t crc)
{
    image_source source = store_source(which);
    for (uint16_t i = 0; i < length; i++)
        image_bytes[i] = source(i);
    image_length = length;
    image_changes++;
    image_shape = work.shape;
    guard_image(crc);
    board_start_table();
}
