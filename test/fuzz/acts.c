#include "acts.h"

#include <stdio.h>
#include <string.h>

#include "board.h"
#include "feed.h"
#include "host.h"
#include "image.h"
#include "store.h"
#include "towns.h"
#include "watch.h"
#include "work.h"

static const uint8_t *bytes;
static size_t left;
static char text[128];
static uint8_t sequence;

static uint8_t next(void)
{
    if (!left)
        return 0;
    left--;
    return *bytes++;
}

static unsigned next_word(void)
{
    unsigned low = next();
    return low | (unsigned)next() << 8;
}

/* Arguments of each word: S site, D dial, N input, L lamp, P pin or bit, W 16 bits, O offset of a part, H and G four and
 * eight digits, X bytes, I an image, B a bit, K a level, M a master; what stands behind ? may be missing. */
static const char *const forms[VERB_COUNT] = {
    [VERB_BEGIN] = "WH",  [VERB_PART] = "OX",    [VERB_SUM] = "I",    [VERB_READ] = "IO",   [VERB_DIAL] = "SD?W",
    [VERB_STEP] = "S",    [VERB_AGAIN] = "?S",   [VERB_HOLD] = "SB",  [VERB_LAMP] = "LK?W", [VERB_MASTER] = "M",
    [VERB_PRESS] = "NK",  [VERB_TELL] = "B",     [VERB_SITE] = "S",   [VERB_LABEL] = "GX",  [VERB_PULSE] = "PBW",
    [VERB_PROBE] = "PB",  [VERB_METER] = "W",
};

static void add(const char *form, ...)
{
    __builtin_va_list more;
    size_t used = strlen(text);
    __builtin_va_start(more, form);
    vsnprintf(text + used, sizeof text - used, form, more);
    __builtin_va_end(more);
}

static void add_argument(char kind)
{
    static const char *const levels[] = { "auto", "on", "off", "all" };
    static const char *const masters[] = { "auto", "run", "night", "off", "safe", "dim" };
    uint8_t byte = next();
    switch (kind) {
    case 'S': byte % 8 == 7 ? add(" %u", 128u + byte / 8) : add(" %u", byte % 8u); break;
    case 'D': add(" %u", byte % 16u); break;
    case 'N': add(" %u", byte % 6u); break;
    case 'L': byte < 250 ? add(" %u", byte % 66u) : add(" all"); break;
    case 'P': add(" %u", byte); break;
    case 'W': add(" %u", byte | (unsigned)next() << 8); break;
    case 'O': add(" %u", 16u * (byte % 32u)); break;
    case 'H': add(" %04X", byte | (unsigned)next() << 8); break;
    case 'G': add(" %08X", byte * 0x01010101u); break;
    case 'I': add(byte & 1 ? " run" : " kept"); break;
    case 'B': add(" %u", byte % 3u); break;
    case 'K': add(" %s", levels[byte % 4]); break;
    case 'M': add(" %s", masters[byte % 6]); break;
    default:
        add(" ");
        for (byte %= 17; byte; byte--)
            add("%02X", next());
    }
}

static void send_word(void)
{
    static const char words[] = VERB_WORDS;
    uint8_t verb = next() % VERB_COUNT;
    const char *word = words;
    for (uint8_t i = 0; i < verb; i++)
        word += strlen(word) + 1;
    snprintf(text, sizeof text, "%s", word);
    for (const char *form = forms[verb] ? forms[verb] : ""; *form; form++) {
        if (*form != '?')
            add_argument(*form);
        else if (next() & 1)
            break;
    }
    feed_request(sequence++ & 0x7F, text);
}

static void send_text(void)
{
    unsigned count = next() % 50;
    for (unsigned i = 0; i < count; i++)
        text[i] = (char)next();
    text[count] = 0;
    feed_request(sequence++ & 0x7F, text);
}

/* A table with some bytes changed, under its right CRC. Its parts stand in the store at once, as if they had come. */
static void send_table(void)
{
    static uint8_t image[CAPACITY_IMAGE];
    const struct town *town = &towns[next() % towns_count];
    unsigned length = town->length;
    memcpy(image, town->image, length);
    for (unsigned count = next() % 5; count; count--) {
        unsigned at = next_word() % length;
        image[at] = next();
    }
    uint16_t crc = watch_crc(image, length);
    snprintf(text, sizeof text, "begin %u %04X", length, crc);
    feed_request(sequence++ & 0x7F, text);
    target_run_until_fed();
    target_run(12);
    /* Busy with something else, it has refused. */
    if (!work_upload.begun || work_upload.length != length || work_upload.crc != crc || !hal_eeprom_ready())
        return;
    memcpy(host_eeprom + slot_at(store_spare()), image, length);
    feed_request(sequence++ & 0x7F, "start");
    target_run_until_fed();
    target_run(40);
}

static void disturb(void)
{
    uint8_t byte = next();
    if (byte & 1) {
        host_cut = 1 + byte / 8u;
        host_garbage = byte & 2 ? next() : -1;
    } else {
        target_restart((uint8_t)(1 + byte / 2 % 4));
    }
}

static void act(uint8_t byte)
{
    bool may_change = feed_mode == ANYTHING;
    switch (byte & 15) {
    case 0: target_run(next()); break;
    case 1:
        for (unsigned count = next() % 24; count; count--)
            feed_byte(next());
        break;
    case 2: send_text(); break;
    case 3: feed_again(); break;
    case 4:
        byte = next();
        if (may_change)
            host_level[2 + byte / 2 % (CAPACITY_PINS - 2)] = byte & 1;
        break;
    case 5:
        if (may_change)
            send_table();
        break;
    case 6:
        if (may_change)
            disturb();
        break;
    default:
        send_word();
        target_run_until_fed();
        target_run(byte >> 4);
    }
}

void acts_play(const uint8_t *data, size_t size)
{
    bytes = data;
    left = size;
    sequence = 0;
    while (left && !target_over())
        act(next());
}
