#include "watch.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "board.h"
#include "host.h"
#include "image.h"
#include "lamps.h"

void (*watch_loaded)(void);

/* Pairs of lamps of the board that must not be lit together. */
static uint8_t pairs[CAPACITY_SITES * LIMIT_CONFLICTS][2];
static unsigned pair_count;
static bool is_stale = true;

void wrong(const char *what)
{
    printf("bad %s at %u\n", what, (unsigned)board_now);
    fflush(stdout);
    abort();
}

uint16_t watch_crc(const uint8_t *bytes, unsigned count)
{
    uint16_t crc = 0xFFFF;
    for (unsigned i = 0; i < count; i++) {
        crc ^= (uint16_t)(bytes[i] << 8);
        for (int bit = 0; bit < 8; bit++)
            crc = crc & 0x8000 ? (uint16_t)(crc << 1 ^ 0x1021) : (uint16_t)(crc << 1);
    }
    return crc;
}

void __real_hal_pins_begin(void);
void __wrap_hal_pins_begin(void);
void __wrap_hal_pins_begin(void)
{
    is_stale = true;
    if (watch_loaded)
        watch_loaded();
    __real_hal_pins_begin();
}

/* Rows may change every millisecond and say nothing here. */
void hal_note_interval(uint8_t site, uint8_t row)
{
    (void)site;
    (void)row;
}

/* A table may run in circles without an interval (stuck), but none that was taken may come to anything worse. */
void hal_note_fault(uint8_t site, uint8_t fault)
{
    (void)site;
    if (fault != FAULT_NONE && fault != FAULT_STUCK)
        wrong("a guard that had to step in");
}

/* Header, chain, lamps of 2, inputs of 4, groups of 8, then programs with their lengths, then sites. */
static void read_pairs(void)
{
    const uint8_t *image = image_bytes;
    is_stale = false;
    pair_count = 0;
    if (!image_length)
        return;
    const uint8_t *first = image + 12 + (image[6] ? 4 : 0) + 2 * image[3] + 4 * image[4] + 8 * image[5];
    const uint8_t *site = first;
    for (unsigned i = 0; i < image[1]; i++)
        site += site[0] | site[1] << 8;
    for (unsigned s = 0, lamp = 0; s < image[2]; s++) {
        const uint8_t *program = first;
        for (unsigned i = 0; i < site[0]; i++)
            program += program[0] | program[1] << 8;
        unsigned aspects = 2 * ((program[2] + 3u) / 4);
        const uint8_t *pair = program + 8 + 4 * program[3] + aspects;
        for (unsigned i = 0; i < program[7]; i++, pair += 2) {
            pairs[pair_count][0] = (uint8_t)(lamp + pair[0]);
            pairs[pair_count++][1] = (uint8_t)(lamp + pair[1]);
        }
        lamp += program[2];
        site += 5 + program[4] + 2 * program[3];
    }
}

static bool lit(const uint8_t *bits, unsigned lamp) { return bits[lamp / 8] >> (lamp % 8) & 1; }

void watch_lamps(void)
{
    uint8_t driven[LAMP_BITS] = { 0 };
    const uint8_t *record = image_bytes + 12 + (image_bytes[6] ? 4 : 0);
    if (!image_length) {
        for (unsigned i = 0; i < LAMP_BITS; i++)
            if (lamps_lit[i])
                wrong("lamps lit without a table");
        return;
    }
    for (unsigned i = 0; i < image_bytes[3]; i++, record += 2) {
        int level = host_output(record[0]);
        if (level >= 0 && level != record[1] >> 7)
            driven[i / 8] |= (uint8_t)(1 << i % 8);
    }
    if (memcmp(driven, lamps_lit, sizeof driven))
        wrong("outputs differ from lamps");
    if (is_stale)
        read_pairs();
    /* A host may light what it likes, one lamp at a time; the plan beneath must hold all the same. */
    bool is_forced = lamps_forced();
    for (unsigned i = 0; i < pair_count; i++) {
        if (lit(lamps_plan, pairs[i][0]) && lit(lamps_plan, pairs[i][1]))
            wrong("conflicting lamps planned together");
        if (!is_forced && lit(driven, pairs[i][0]) && lit(driven, pairs[i][1]))
            wrong("conflicting lamps lit together");
    }
}

void watch_line(const char *text)
{
    unsigned length = (unsigned)strlen(text);
    char crc[5];
    if (!length)
        return;
    if (length >= LINK_ANSWER_LINE)
        wrong("line too long");
    if (length < 8 || !(text[0] == '=' || text[0] == '!') || text[3] != ' ' || text[length - 5] != ' ')
        wrong("line without form");
    for (unsigned i = 0; i < length; i++)
        if (text[i] < ' ' || text[i] > '~')
            wrong("character that no line may hold");
    snprintf(crc, sizeof crc, "%04X", watch_crc((const uint8_t *)text, length - 5));
    if (strcmp(crc, text + length - 4))
        wrong("line with a wrong CRC");
}
