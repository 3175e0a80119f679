#include "requests.h"

#include <string.h>

#include "answer.h"
#include "board.h"
#include "jobs.h"
#include "line.h"
#include "verbs.h"

#define KIND_SLOW 1
#define KIND_ONCE 2
/* A repeat is taken for one until so many other requests have come. */
#define REMEMBERED 200

static const IN_FLASH char words[] = VERB_WORDS;
static const IN_FLASH uint8_t kinds[VERB_COUNT] = { VERB_KINDS };

/* A complete request stands in the line. */
static bool waiting;

/* The last quick and the last slow word that is to be done only once. */
static struct {
    uint16_t line;
    uint8_t code;
    uint8_t left; /* 0 when forgotten */
} memory[2];

static void remember(uint8_t which, uint16_t line, uint8_t code)
{
    memory[which].line = line;
    memory[which].code = code;
    memory[which].left = REMEMBERED;
}

void requests_outcome(uint16_t line, uint8_t code) { remember(KIND_SLOW, line, code); }

void requests_host_gone(void) { memset(memory, 0, sizeof memory); }

static void forget_gradually(void)
{
    for (uint8_t i = 0; i < 2; i++)
        if (memory[i].left)
            memory[i].left--;
}

/* Reads the arguments of a slow word. */
static uint8_t take_order(struct job_order *order)
{
    static const IN_FLASH char images[] = "run\0kept\0";
    uint32_t a = 0, b = 0;
    uint8_t which, count = 0;
    union job_arguments *to = &order->arguments;
    bool fine = true;
    switch (order->verb) {
    case VERB_BEGIN:
        fine = line_number(&a) && line_hex(&b, 4);
        to->begin.length = a > 0xFFFF ? 0xFFFF : (uint16_t)a;
        to->begin.crc = (uint16_t)b;
        break;
    case VERB_PART:
        fine = line_number(&a) && line_bytes(to->part.bytes, &to->part.count, LINK_PART_BYTES, false);
        to->part.offset = a > 0x7FFF ? 0x7FFF : (uint16_t)a;
        break;
    case VERB_SUM:
        which = line_word(images);
        fine = which != NONE;
        to->kept = which;
        break;
    case VERB_METER:
        fine = line_number(&a);
        to->reference = a > 0xFFFF ? 0xFFFF : (uint16_t)a;
        break;
    case VERB_LABEL:
        memset(to->label, 0, sizeof to->label);
        fine = line_hex(&a, 8) && line_bytes(to->label + 4, &count, LABEL_TEXT - 4, true);
        for (uint8_t i = 0; i < 4; i++)
            to->label[i] = (uint8_t)(a >> (24 - 8 * i));
        break;
    }
    return fine && line_end() ? 0 : CODE_BAD_ARGUMENTS;
}

/* Answers at once only when the job does not begin. */
static void do_slow(uint8_t verb)
{
    struct job_order order;
    order.verb = verb;
    order.sequence = line_sequence;
    order.line = line_crc;
    uint8_t code = take_order(&order);
    if (!code)
        code = jobs_begin(&order);
    if (!code)
        return;
    if (kinds[verb] & KIND_ONCE && code != CODE_BUSY)
        remember(KIND_SLOW, line_crc, code);
    answer_no(line_sequence, code, PLACE_NONE);
}

/* False when it has to wait for the EEPROM. */
static bool do_quick(uint8_t verb)
{
    bool answered = false;
    uint8_t code = verbs_do(verb, &answered);
    if (code == VERB_WAIT)
        return false;
    if (kinds[verb] & KIND_ONCE)
        remember(0, line_crc, code);
    if (code) {
        answer_no(line_sequence, code, PLACE_NONE);
        return true;
    }
    if (!answered)
        answer_ok(line_sequence);
    answer_end();
    return true;
}

static bool repeated(uint8_t kind)
{
    uint8_t which = kind & KIND_SLOW;
    if (!(kind & KIND_ONCE) || !memory[which].left || memory[which].line != line_crc)
        return false;
    memory[which].left = REMEMBERED;
    if (memory[which].code) {
        answer_no(line_sequence, memory[which].code, PLACE_NONE);
    } else {
        answer_ok(line_sequence);
        answer_end();
    }
    return true;
}

/* False when the request has to wait. */
static bool handle(void)
{
    line_rewind();
    uint8_t verb = line_word(words);
    bool longer = verb == VERB_WHO || verb == VERB_READ || verb == VERB_STATE || verb == VERB_SNAP;
    if (hal_send_room() < (longer ? ROOM_LONG : ROOM_SHORT))
        return false;
    if (verb == NONE) {
        answer_no(line_sequence, CODE_UNKNOWN_VERB, PLACE_NONE);
        return true;
    }
    uint8_t kind = kinds[verb];
    if (jobs_working_on(line_crc) || repeated(kind))
        return true;
    if (!(kind & KIND_SLOW))
        return do_quick(verb);
    do_slow(verb);
    return true;
}

bool requests_poll(void)
{
    if (!waiting) {
        int16_t byte;
        while (!waiting && (byte = hal_receive()) >= 0)
            waiting = line_feed((uint8_t)byte);
        if (!waiting)
            return false;
        board_host_heard();
        forget_gradually();
    }
    waiting = !handle();
    return waiting;
}
