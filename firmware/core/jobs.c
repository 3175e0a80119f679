#include "jobs.h"

#include "answer.h"
#include "board.h"
#include "guard.h"
#include "migrate.h"
#include "requests.h"
#include "supply.h"
#include "work.h"

static struct {
    uint8_t verb;
    uint8_t sequence;
    uint16_t line;
} job;
static bool active, finished;

/* Work that no host has asked for: bringing an older store up to date. */
#if STORE_VERSION > 1
static enum chore chore;
#define IS_CHORE (chore != CHORE_NONE)
#else
#define IS_CHORE false
#endif

/* The keep that the guard wants: no verb of the line. */
#define OWN_KEEP VERB_COUNT

bool jobs_idle(void) { return !active; }
bool jobs_upload_begun(void) { return work_upload.begun; }
void jobs_drop_upload(void) { work_upload.begun = false; }
void jobs_host_gone(void) { work_upload.begun = false; }
bool jobs_working_on(uint16_t line) { return active && !IS_CHORE && job.verb != OWN_KEEP && job.line == line; }

static uint8_t sum_image(void)
{
    /* A dial that has changed meanwhile would make the sum one of nothing. */
    if (work.step == 0 || (work.slot == SLOT_NONE && work.changes != image_changes)) {
        work.step = 0;
        work.changes = image_changes;
        if (work.slot == SLOT_NONE)
            work_begin_walk(image_ram, image_length);
        else
            work_begin_walk(store_source(work.slot), store_length);
    }
    return work_sum_walk();
}

static uint8_t erase(void)
{
    uint8_t outcome = work_spoil(work.step);
    if (outcome != DONE)
        return outcome;
    if (work.step == 0) {
        work_next_step();
        return WORKING;
    }
    outcome = work_take_over();
    if (outcome != DONE)
        return outcome;
    work_upload.begun = false;
    store_erased();
    board_stop_table();
    return DONE;
}

static uint8_t label_byte(uint16_t i)
{
    static const IN_FLASH uint8_t head[IDENTITY_AT] = { 'A', 'w', STORE_VERSION, 0 };
    return i < IDENTITY_AT ? head[i] : work.order.label[i - IDENTITY_AT];
}

static uint8_t write_label(void)
{
    uint8_t value;
    if (work.at == 0) {
        store_label_good = false;
        work.crc = store_label_crc(label_byte);
    }
    if (work.at < LABEL_BYTES - 2)
        value = label_byte(work.at);
    else
        value = (uint8_t)(work.at == LABEL_BYTES - 2 ? work.crc : work.crc >> 8);
    uint8_t outcome = work_put((uint16_t)(LABEL_AT + work.at), value);
    if (outcome != DONE)
        return outcome;
    if (++work.at < LABEL_BYTES)
        return WORKING;
    store_label_good = store_label_version() == STORE_VERSION;
    if (!store_label_good)
        return work_refuse(CODE_STORE_FAILED);
    store_taken();
    return DONE;
}

__attribute__((noinline)) static uint8_t slice(void)
{
    switch (job.verb) {
    case VERB_BEGIN: return upload_begin();
    case VERB_PART: return upload_part();
    case VERB_START: return upload_start();
    case VERB_SUM: return sum_image();
    case VERB_KEEP:
    case OWN_KEEP: return keep_slice();
    case VERB_BACK: return back_slice();
    case VERB_ERASE: return erase();
    case VERB_METER: return meter_slice();
    default:
#if STORE_VERSION > 1
        if (IS_CHORE)
            return migrate_label_slice();
#endif
        return write_label();
    }
}

static uint8_t meter_objection(uint16_t shown)
{
    if (shown < LINK_METER_LEAST_MV || shown > LINK_METER_MOST_MV)
        return CODE_OUTSIDE_LIMITS;
    if (!hal_supply_reading())
        return CODE_BUSY;
    uint16_t reference = supply_by_meter(shown);
    return reference < LINK_REFERENCE_LEAST_MV || reference > LINK_REFERENCE_MOST_MV ? CODE_OUTSIDE_LIMITS : 0;
}

/* What must be so for a job to begin. */
static uint8_t objection(const struct job_order *order)
{
    switch (order->verb) {
    case VERB_BEGIN:
        if (order->arguments.begin.length > CAPACITY_IMAGE)
            return CODE_TOO_LONG;
        return order->arguments.begin.length < HEADER_BYTES ? CODE_BAD_LENGTH : 0;
    case VERB_PART:
        if (!work_upload.begun)
            return CODE_NO_UPLOAD;
        return order->arguments.part.offset + order->arguments.part.count > work_upload.length ? CODE_TOO_LONG : 0;
    case VERB_START: return work_upload.begun ? 0 : CODE_NO_UPLOAD;
    case VERB_SUM:
        if (order->arguments.kept)
            return store_newest == SLOT_NONE ? CODE_NO_TABLE : 0;
        return image_length ? 0 : CODE_NO_TABLE;
    case VERB_KEEP: return image_length ? 0 : CODE_NO_TABLE;
    case VERB_BACK: return store_newest == SLOT_NONE ? CODE_NO_TABLE : 0;
    case VERB_METER: return meter_objection(order->arguments.reference);
    default: return 0;
    }
}

static void set_out(uint8_t verb)
{
    job.verb = verb;
    active = true;
    finished = false;
    work.code = 0;
    work.step = 0xFF;
    work_next_step();
    guard_job_begins();
}

void jobs_keep_anew(void)
{
    set_out(OWN_KEEP);
    work.slot = store_spare();
}

void jobs_boot(void)
{
#if STORE_VERSION > 1
    chore = migrate_next();
    if (!IS_CHORE)
        return;
    set_out(chore == CHORE_KEEP ? VERB_KEEP : VERB_LABEL);
    work.slot = store_spare();
#endif
}

uint8_t jobs_begin(const struct job_order *order)
{
    if (active)
        return CODE_BUSY;
    uint8_t why = objection(order);
    if (why)
        return why;
    job.sequence = order->sequence;
    job.line = order->line;
    work.order = order->arguments;
    set_out(order->verb);
    /* The slot that it is about; none where a sum is that of the RAM. */
    work.slot = store_spare();
    if (job.verb == VERB_BACK || job.verb == VERB_SUM)
        work.slot = store_newest;
    if (job.verb == VERB_SUM && !order->arguments.kept)
        work.slot = SLOT_NONE;
    if (job.verb == VERB_METER)
        work.order.reference = supply_by_meter(order->arguments.reference);
    /* A new upload replaces the one before from its first byte on. */
    if (job.verb == VERB_BEGIN || job.verb == VERB_KEEP)
        work_upload.begun = false;
    return 0;
}

__attribute__((noinline)) static void answer(void)
{
    active = false;
    requests_outcome(job.line, work.code);
    if (work.code) {
        answer_no(job.sequence, work.code, work.place);
        return;
    }
    answer_ok(job.sequence);
    switch (job.verb) {
    case VERB_PART: answer_number(work.order.part.offset); break;
    case VERB_START: answer_hex(image_shape, 4); break;
    case VERB_SUM:
        answer_number(work.slot == SLOT_NONE ? image_length : store_length);
        answer_hex(work.crc, 4);
        answer_hex(work.shape, 4);
        break;
    case VERB_KEEP: answer_number(store_keeps); break;
    case VERB_METER: answer_number(supply_reference); break;
    }
    answer_end();
}

bool jobs_poll(bool waits)
{
#if STORE_VERSION > 1
    if (active && finished && IS_CHORE) {
        active = false;
        bool lost = work.code && chore == CHORE_KEEP;
        chore = CHORE_NONE;
        /* What is kept is of an older version still: better none than that. */
        if (lost)
            store_lost();
        else
            jobs_boot();
        return active;
    }
#endif
    if (active && finished && job.verb == OWN_KEEP) {
        active = false;
        guard_kept(work.code);
    }
    if (active && finished) {
        if (!waits && hal_send_room() >= ROOM_SHORT)
            answer();
        return false;
    }
    if (waits || !hal_eeprom_ready())
        return false;
    if (!active)
        return store_compare();
    uint8_t outcome = slice();
    finished = outcome == DONE || outcome == REFUSED;
    return outcome != WRITING;
}
