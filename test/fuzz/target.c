/* What a fuzzer throws at the unchanged core, and what must then be so.
 *
 * Byte 0 of an input: how much is allowed (modulo 3) and which town runs. Byte 1: time and events.
 *   NOISE     the rest are bytes on the line; a line that happens to be valid is spoilt
 *   HARMLESS  the rest are acts (acts.c); lines that ask for no change of the lamps are let through
 *   ANYTHING  the rest are acts; nothing is held back
 * In the first two the lamps must do, millisecond for millisecond, what they do without a byte. In all of them no
 * conflicting pair is lit, no table starts that nobody has named, every line of the board is well formed, and at the end
 * one newline and a `beat` are answered. Sanitizers watch beneath. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "acts.h"
#include "board.h"
#include "feed.h"
#include "host.h"
#include "image.h"
#include "lamps.h"
#include "restart.h"
#include "towns.h"
#include "watch.h"

#define REFERENCE_MS 1400
/* A quick request is answered within 20 ms when the line is free; before that one line of 120 may be on its way, and one
 * request may wait for room. */
#define ANSWER_MS 80
/* So long the lamps are looked at behind the last byte: each town changes some in it. */
#define LOOK_MS 120
#define STARTS 2

static const uint32_t starts[STARTS] = { 1000, 0xFFFFFF00u };
static uint8_t reference[TOWNS_MOST][STARTS][REFERENCE_MS + 1][LAMP_BITS];
static const uint8_t (*expected)[LAMP_BITS];
static unsigned passed, budget;
static bool is_answered;

static void look(void)
{
    watch_lamps();
    for (const char *text; (text = host_line());) {
        watch_line(text);
        is_answered |= !strncmp(text, "=EE ok ", 7);
    }
}

static void begin(unsigned town, unsigned start)
{
    memset(host_level, 0, sizeof host_level);
    memcpy(host_eeprom, towns[town].eeprom, EEPROM_BYTES);
    host_cut = 0;
    host_wire = true;
    passed = 0;
    feed_begin();
    feed_allow(towns[town].image, towns[town].length);
    restart(CAUSE_RESET, starts[start]);
    look();
}

void target_restart(uint8_t cause)
{
    host_cut = 0;
    feed_lost();
    restart(cause, board_now);
    look();
}

bool target_over(void) { return passed >= budget; }

void target_run(unsigned ms)
{
    for (; ms && !target_over(); ms--) {
        if (!host_millisecond()) {
            target_restart(CAUSE_POWER);
            continue;
        }
        board_loop();
        look();
        /* Work that does not wait goes on within the millisecond. */
        board_loop();
        passed++;
        if (expected && memcmp(expected[passed], lamps_lit, LAMP_BITS))
            wrong("lamps disturbed");
    }
    feed_note_image();
}

void target_run_until_fed(void)
{
    while (!host_fed() && !target_over())
        target_run(1);
}

static void learn(void)
{
    for (unsigned town = 0; town < towns_count; town++)
        for (unsigned start = 0; start < STARTS; start++) {
            expected = 0;
            budget = REFERENCE_MS;
            begin(town, start);
            for (unsigned ms = 1; ms <= REFERENCE_MS; ms++) {
                target_run(1);
                memcpy(reference[town][start][ms], lamps_lit, LAMP_BITS);
            }
        }
}

static void loaded(void)
{
    if (image_length && !feed_is_allowed(image_bytes, image_length))
        wrong("table that nobody has named");
}

static void tell_sum(void) { fprintf(stderr, "fed %lu bytes in %lu inputs\n", feed_total, feed_inputs); }

int LLVMFuzzerInitialize(int *argc, char ***argv);
int LLVMFuzzerInitialize(int *argc, char ***argv)
{
    (void)argc;
    (void)argv;
    towns_read(getenv("AMBERWICK_TOWNS"));
    /* A test of the test: nothing is spoilt, so that the lamps obey. */
    feed_spoils = !getenv("AMBERWICK_LET_THROUGH");
    watch_loaded = loaded;
    learn();
    atexit(tell_sum);
    return 0;
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);
int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    if (size < 3)
        return 0;
    feed_inputs++;
    enum feed_mode mode = data[0] % 3;
    unsigned town = data[0] / 3 % towns_count, start = data[1] & 1;
    expected = mode == ANYTHING ? 0 : (const uint8_t(*)[LAMP_BITS])reference[town][start];
    budget = mode == ANYTHING ? 4000 : REFERENCE_MS - LOOK_MS - ANSWER_MS - 20;
    begin(town, start);
    feed_mode = HARMLESS;
    if (data[1] & 2)
        feed_request(0xE0, "tell 1");
    feed_mode = mode;
    data += 2;
    size -= 2;
    if (mode == NOISE) {
        for (size_t i = 0; i < size; i++)
            feed_byte(data[i]);
        target_run_until_fed();
    } else {
        acts_play(data, size);
    }

    /* What is left of a long input is not counted: the board goes on from where it is. */
    expected = host_fed() ? expected : 0;
    budget = 100000;
    host_cut = 0;
    target_run_until_fed();
    feed_byte('\n');
    target_run_until_fed();
    target_run(LOOK_MS);
    is_answered = false;
    feed_mode = HARMLESS;
    feed_request(0xEE, "beat");
    for (unsigned ms = 0; ms < ANSWER_MS && !is_answered; ms++) {
        if (passed == REFERENCE_MS)
            expected = 0;
        target_run(1);
    }
    if (!is_answered)
        wrong("no answer within its time");
    return 0;
}
