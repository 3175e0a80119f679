/* Back: the kept values, or the kept table, run again. */
#include "guard.h"
#include "sites.h"
#include "work.h"

/* Are the images the same but for their dials? */
static uint8_t compare_shapes(bool *same)
{
    for (uint8_t i = 0; i < BYTES_A_SLICE; i++) {
        if (!walk_more(&work.walk))
            return DONE;
        uint16_t here = work.walk.at++;
        if (!work.walk.dial && work.walk.source(here) != image_bytes[here]) {
            *same = false;
            return DONE;
        }
    }
    return WORKING;
}

/* Both bytes of a word in one slice, so that no tick sees half of it; one word
 * that changes, for its CRC takes a while. */
static uint8_t copy_dials(void)
{
    for (uint8_t i = 0; i < BYTES_A_SLICE; i++) {
        if (!walk_more(&work.walk))
            return DONE;
        uint16_t here = work.walk.at++;
        if (work.walk.dial) {
            work.walk.at++;
            uint16_t word = source_word(work.walk.source, here);
            if (word != image_word(here)) {
                guard_put_word(here, word);
                return WORKING;
            }
        }
    }
    return WORKING;
}

enum { BACK_SUM, BACK_COMPARE, BACK_DIALS, BACK_TABLE };

uint8_t back_slice(void)
{
    uint8_t outcome;
    bool same = true;
    switch (work.step) {
    case BACK_SUM:
        outcome = work_sum_slot(work.slot, store_length);
        if (outcome != DONE)
            return outcome;
        if (work.crc != store_image_crc(work.slot))
            return work_refuse(CODE_STORE_FAILED);
        work_begin_walk(store_source(work.slot), store_length);
        same = store_length == image_length;
        break;
    case BACK_COMPARE:
        outcome = compare_shapes(&same);
        if (outcome != DONE)
            return WORKING;
        if (same) {
            work_begin_walk(store_source(work.slot), store_length);
            work.changes = image_changes;
        }
        break;
    case BACK_DIALS:
        outcome = copy_dials();
        if (outcome != DONE)
            return outcome;
        if (work.changes == image_changes)
            store_agrees();
        else
            store_differs();
        image_changes++;
        sites_all_dials_changed();
        return DONE;
    default:
        outcome = work_sum_walk();
        if (outcome != DONE)
            return outcome;
        work_load(work.slot, store_length, store_image_crc(work.slot));
        store_agrees();
        return DONE;
    }
    if (!same) {
        work_begin_walk(store_source(work.slot), store_length);
        work.step = BACK_TABLE;
    }
    return WORKING;
}
