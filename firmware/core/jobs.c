#include "jobs.h"

#include "answer.h"
#include "board.h"
#include "check.h"
#include "crc.h"
#include "requests.h"
#include "sites.h"
#include "store.h"
#include "walk.h"

/* Bytes looked at in a slice: under 0.2 ms. */
#define BYTES_A_SLICE 8

enum { WORKING, WRITING, DONE, REFUSED };

static struct {
    uint8_t verb;
    uint8_t sequence;
    uint16_t line;
} job;
static bool active, finished;
static uint8_t step, code;
static uint16_t place, at, crc, shape;
static uint8_t slot, changes;
/* No job needs two of them at once. */
static union {
    union job_arguments order;
    uint8_t record[RECORD_BYTES];
    struct check check;
    struct walk walk;
} tool;

static struct {
    bool begun;
    uint16_t length;
    uint16_t crc;
} upload;

bool jobs_upload_begun(void) { return upload.begun; }
void jobs_drop_upload(void) { upload.begun = false; }
void jobs_host_gone(void) { upload.begun = false; }
bool jobs_busy(void) { return active; }
bool jobs_working_on(uint16_t line) { return active && job.line == line; }

static uint8_t refuse(uint8_t why)
{
    code = why;
    place = PLACE_NONE;
    return REFUSED;
}

static void next_step(void)
{
    step++;
    at = 0;
    crc = CRC16_START;
}

/* The outcome of one byte written, as that of a slice. */
static uint8_t put(uint16_t to, uint8_t value)
{
    switch (store_put(to, value)) {
    case PUT_DONE: return DONE;
    case PUT_WRITING: return WRITING;
    default: return refuse(CODE_STORE_FAILED);
    }
}

/* Spoils the mark of a slot's record; done when it does not fit. */
static uint8_t spoil(uint8_t which)
{
    uint8_t mark = store_mark(which);
    uint16_t to = (uint16_t)(record_at(which) + RECORD_MARK);
    if (hal_eeprom_read(to) != mark)
        return DONE;
    return put(to, (uint8_t)~mark) == REFUSED ? REFUSED : WRITING;
}

static uint8_t begin_upload(void)
{
    uint8_t outcome = spoil(slot);
    if (outcome == DONE) {
        upload.begun = true;
        upload.length = tool.order.begin.length;
        upload.crc = tool.order.begin.crc;
    }
    return outcome;
}

static uint8_t stage_part(void)
{
    if (at == tool.order.part.count)
        return DONE;
    uint8_t outcome = put((uint16_t)(slot_at(slot) + tool.order.part.offset + at), tool.order.part.bytes[at]);
    if (outcome != DONE)
        return outcome;
    at++;
    return WORKING;
}

/* A slice of the CRC over a slot; done when `length` bytes are in `crc`. */
static uint8_t sum_slot(uint8_t which, uint16_t length)
{
    image_source source = store_source(which);
    for (uint8_t i = 0; i < BYTES_A_SLICE && at < length; i++)
        crc = crc16_byte(crc, source(at++));
    return at == length ? DONE : WORKING;
}

/* A slice of the walk: the whole CRC in `crc`, that of the shape in `shape`. */
static uint8_t sum_walk(void)
{
    for (uint8_t i = 0; i < BYTES_A_SLICE; i++) {
        if (!walk_more(&tool.walk))
            return DONE;
        uint8_t byte = tool.walk.source(tool.walk.at++);
        crc = crc16_byte(crc, byte);
        if (!tool.walk.dial)
            shape = crc16_byte(shape, byte);
    }
    return WORKING;
}

static void begin_walk(image_source source, uint16_t length)
{
    next_step();
    shape = CRC16_START;
    walk_start(&tool.walk, source, length);
}

/* Replaces the running table at once: nothing of it is seen half. */
static void load(uint8_t which, uint16_t length)
{
    image_source source = store_source(which);
    for (uint16_t i = 0; i < length; i++)
        image_bytes[i] = source(i);
    image_length = length;
    image_changes++;
    image_shape = shape;
    board_start_table();
}

static uint8_t start_upload(void)
{
    uint8_t outcome;
    switch (step) {
    case 0:
        outcome = sum_slot(slot, upload.length);
        if (outcome != DONE)
            return outcome;
        if (crc != upload.crc)
            return refuse(CODE_NOT_WHOLE);
        check_start(&tool.check, store_source(slot), upload.length);
        next_step();
        return WORKING;
    case 1:
        if (check_step(&tool.check))
            return WORKING;
        if (tool.check.code) {
            code = tool.check.code;
            place = tool.check.place;
            return REFUSED;
        }
        begin_walk(store_source(slot), upload.length);
        return WORKING;
    default:
        outcome = sum_walk();
        if (outcome == DONE) {
            upload.begun = false;
            load(slot, upload.length);
            store_differs();
        }
        return outcome;
    }
}

static uint8_t sum_image(void)
{
    /* A dial that has changed meanwhile would make the sum one of nothing. */
    if (step == 0 || (slot == SLOT_NONE && changes != image_changes)) {
        step = 0;
        changes = image_changes;
        if (slot == SLOT_NONE)
            begin_walk(image_ram, image_length);
        else
            begin_walk(store_source(slot), store_length);
    }
    return sum_walk();
}

/* The record of the slot: its eight bytes stand in tool.record. */
static void make_record(void)
{
    uint16_t sequence = (uint16_t)(store_keeps + 1);
    uint16_t words[3] = { sequence, image_length, crc };
    uint8_t sum = 0;
    for (uint8_t i = 0; i < RECORD_MARK; i++) {
        tool.record[i] = (uint8_t)(i & 1 ? words[i >> 1] >> 8 : words[i >> 1]);
        sum = crc8_byte(sum, tool.record[i]);
    }
    tool.record[RECORD_MARK] = sum ^ STORE_MARK_SECRET;
    tool.record[RECORD_MARK + 1] = 0;
}

/* Compares the slot with the image; done when they agree and no dial has
 * changed since the writing began. */
static uint8_t read_back(void)
{
    bool same = true;
    for (uint8_t i = 0; i < BYTES_A_SLICE && at < image_length && same; i++) {
        uint8_t byte = store_source(slot)(at);
        same = byte == image_bytes[at++];
        crc = crc16_byte(crc, byte);
    }
    if (changes != image_changes) {
        changes = image_changes;
        step = 0;
        next_step();
        return WORKING;
    }
    if (!same)
        return refuse(CODE_STORE_FAILED);
    return at == image_length ? DONE : WORKING;
}

static uint8_t write_image(void)
{
    for (uint8_t i = 0; i < BYTES_A_SLICE && at < image_length; i++, at++) {
        uint8_t outcome = put((uint16_t)(slot_at(slot) + at), image_bytes[at]);
        if (outcome != DONE)
            return outcome;
    }
    return at == image_length ? DONE : WORKING;
}

/* The mark comes last: until then the record does not count. */
static uint8_t write_record(void)
{
    static const IN_FLASH uint8_t order[RECORD_BYTES] = { 0, 1, 2, 3, 4, 5, 7, 6 };
    uint8_t i = order[at];
    uint8_t outcome = put((uint16_t)(record_at(slot) + i), tool.record[i]);
    if (outcome != DONE)
        return outcome;
    return ++at == RECORD_BYTES ? DONE : WORKING;
}

static uint8_t keep(void)
{
    uint8_t outcome;
    switch (step) {
    case 0: outcome = spoil(slot); changes = image_changes; break;
    case 1: outcome = write_image(); break;
    case 2: outcome = read_back(); break;
    default: outcome = write_record();
    }
    if (outcome != DONE)
        return outcome;
    if (step == 2)
        make_record();
    if (step < 3) {
        next_step();
        return WORKING;
    }
    store_kept(slot);
    if (changes != image_changes)
        store_differs();
    return DONE;
}

/* Are the images the same but for their dials? */
static uint8_t compare_shapes(bool *same)
{
    for (uint8_t i = 0; i < BYTES_A_SLICE; i++) {
        if (!walk_more(&tool.walk))
            return DONE;
        uint16_t here = tool.walk.at++;
        if (!tool.walk.dial && tool.walk.source(here) != image_bytes[here]) {
            *same = false;
            return DONE;
        }
    }
    return WORKING;
}

/* Both bytes of a word in one slice, so that no tick sees half of it. */
static uint8_t copy_dials(void)
{
    for (uint8_t i = 0; i < BYTES_A_SLICE; i++) {
        if (!walk_more(&tool.walk))
            return DONE;
        uint16_t here = tool.walk.at++;
        if (tool.walk.dial) {
            tool.walk.at++;
            image_bytes[here] = tool.walk.source(here);
            image_bytes[here + 1] = tool.walk.source((uint16_t)(here + 1));
        }
    }
    return WORKING;
}

enum { BACK_SUM, BACK_COMPARE, BACK_DIALS, BACK_TABLE };

static uint8_t put_back(void)
{
    uint8_t outcome;
    bool same = true;
    switch (step) {
    case BACK_SUM:
        outcome = sum_slot(slot, store_length);
        if (outcome != DONE)
            return outcome;
        if (crc != store_image_crc(slot))
            return refuse(CODE_STORE_FAILED);
        begin_walk(store_source(slot), store_length);
        same = store_length == image_length;
        break;
    case BACK_COMPARE:
        outcome = compare_shapes(&same);
        if (outcome != DONE)
            return WORKING;
        if (same) {
            begin_walk(store_source(slot), store_length);
            changes = image_changes;
        }
        break;
    case BACK_DIALS:
        outcome = copy_dials();
        if (outcome != DONE)
            return outcome;
        if (changes == image_changes)
            store_agrees();
        else
            store_differs();
        image_changes++;
        sites_all_dials_changed();
        return DONE;
    default:
        outcome = sum_walk();
        if (outcome != DONE)
            return outcome;
        load(slot, store_length);
        store_agrees();
        return DONE;
    }
    if (!same) {
        begin_walk(store_source(slot), store_length);
        step = BACK_TABLE;
    }
    return WORKING;
}

static uint8_t erase(void)
{
    uint8_t outcome = spoil(step);
    if (outcome != DONE)
        return outcome;
    if (step == 0) {
        next_step();
        return WORKING;
    }
    upload.begun = false;
    store_erased();
    board_stop_table();
    return DONE;
}

static uint8_t label_byte(uint16_t i)
{
    static const IN_FLASH uint8_t head[IDENTITY_AT] = { 'A', 'w', STORE_VERSION, 0 };
    return i < IDENTITY_AT ? head[i] : tool.order.label[i - IDENTITY_AT];
}

static uint8_t write_label(void)
{
    uint8_t value;
    if (at == 0) {
        store_label_good = false;
        crc = store_label_crc(label_byte);
    }
    if (at < LABEL_BYTES - 2)
        value = label_byte(at);
    else
        value = (uint8_t)(at == LABEL_BYTES - 2 ? crc : crc >> 8);
    uint8_t outcome = put((uint16_t)(LABEL_AT + at), value);
    if (outcome != DONE)
        return outcome;
    if (++at < LABEL_BYTES)
        return WORKING;
    store_label_good = store_check_label();
    return store_label_good ? DONE : refuse(CODE_STORE_FAILED);
}

__attribute__((noinline)) static uint8_t slice(void)
{
    switch (job.verb) {
    case VERB_BEGIN: return begin_upload();
    case VERB_PART: return stage_part();
    case VERB_START: return start_upload();
    case VERB_SUM: return sum_image();
    case VERB_KEEP: return keep();
    case VERB_BACK: return put_back();
    case VERB_ERASE: return erase();
    default: return write_label();
    }
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
        if (!upload.begun)
            return CODE_NO_UPLOAD;
        return order->arguments.part.offset + order->arguments.part.count > upload.length ? CODE_TOO_LONG : 0;
    case VERB_START: return upload.begun ? 0 : CODE_NO_UPLOAD;
    case VERB_SUM:
        if (order->arguments.kept)
            return store_newest == SLOT_NONE ? CODE_NO_TABLE : 0;
        return image_length ? 0 : CODE_NO_TABLE;
    case VERB_KEEP: return image_length ? 0 : CODE_NO_TABLE;
    case VERB_BACK: return store_newest == SLOT_NONE ? CODE_NO_TABLE : 0;
    default: return 0;
    }
}

uint8_t jobs_begin(const struct job_order *order)
{
    if (active)
        return CODE_BUSY;
    uint8_t why = objection(order);
    if (why)
        return why;
    job.verb = order->verb;
    job.sequence = order->sequence;
    job.line = order->line;
    tool.order = order->arguments;
    active = true;
    finished = false;
    code = 0;
    step = 0xFF;
    next_step();
    /* The slot that it is about; none where a sum is that of the RAM. */
    slot = store_spare();
    if (job.verb == VERB_BACK || job.verb == VERB_SUM)
        slot = store_newest;
    if (job.verb == VERB_SUM && !order->arguments.kept)
        slot = SLOT_NONE;
    /* A new upload replaces the one before from its first byte on. */
    if (job.verb == VERB_BEGIN || job.verb == VERB_KEEP)
        upload.begun = false;
    return 0;
}

__attribute__((noinline)) static void answer(void)
{
    active = false;
    requests_outcome(job.line, code);
    if (code) {
        answer_no(job.sequence, code, place);
        return;
    }
    answer_ok(job.sequence);
    switch (job.verb) {
    case VERB_PART: answer_number(tool.order.part.offset); break;
    case VERB_START: answer_hex(image_shape, 4); break;
    case VERB_SUM:
        answer_number(slot == SLOT_NONE ? image_length : store_length);
        answer_hex(crc, 4);
        answer_hex(shape, 4);
        break;
    case VERB_KEEP: answer_number(store_keeps); break;
    }
    answer_end();
}

bool jobs_poll(bool waits)
{
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
