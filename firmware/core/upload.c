/* Uploads: begun, staged in the spare slot, checked and started. */
#include "work.h"

uint8_t upload_begin(void)
{
    uint8_t outcome = work_spoil(work.slot);
    if (outcome == DONE)
        outcome = work_take_over();
    if (outcome == DONE) {
        work_upload.begun = true;
        work_upload.length = work.order.begin.length;
        work_upload.crc = work.order.begin.crc;
    }
    return outcome;
}

uint8_t upload_part(void)
{
    if (work.at == work.order.part.count)
        return DONE;
    uint16_t to = (uint16_t)(slot_at(work.slot) + work.order.part.offset + work.at);
    uint8_t outcome = work_put(to, work.order.part.bytes[work.at]);
    if (outcome != DONE)
        return outcome;
    work.at++;
    return WORKING;
}

uint8_t upload_start(void)
{
    uint8_t outcome;
    switch (work.step) {
    case 0:
        outcome = work_sum_slot(work.slot, work_upload.length);
        if (outcome != DONE)
            return outcome;
        if (work.crc != work_upload.crc)
            return work_refuse(CODE_NOT_WHOLE);
        check_start(&work.check, store_source(work.slot), work_upload.length);
        work_next_step();
        return WORKING;
    case 1:
        if (check_step(&work.check))
            return WORKING;
        if (work.check.code) {
            work.code = work.check.code;
            work.place = work.check.place;
            return REFUSED;
        }
        work_begin_walk(store_source(work.slot), work_upload.length);
        return WORKING;
    default:
        outcome = work_sum_walk();
        if (outcome == DONE) {
            work_upload.begun = false;
            work_load(work.slot, work_upload.length, work_upload.crc);
            store_differs();
        }
        return outcome;
    }
}
