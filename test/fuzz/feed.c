#include "feed.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "host.h"
#include "image.h"
#include "watch.h"

#define LINE 64
#define NAMED 256

enum feed_mode feed_mode;
bool feed_spoils = true;
unsigned long feed_total, feed_inputs;

static char line[LINE + 1];
static unsigned length;
static char last[LINE + 1];
static struct {
    uint16_t length, crc;
} named[NAMED];
static unsigned named_count;
static uint8_t noted_changes;
static uint16_t noted_length;

void feed_begin(void)
{
    length = 0;
    last[0] = 0;
    named_count = 0;
    noted_changes = 0;
    noted_length = 0;
}

void feed_lost(void) { length = 0; }

static void name(unsigned long count, uint16_t crc)
{
    if (named_count == NAMED)
        named_count = 1; /* the first is the town's own */
    named[named_count].length = (uint16_t)count;
    named[named_count++].crc = crc;
}

void feed_allow(const uint8_t *image, unsigned count) { name(count, watch_crc(image, count)); }

bool feed_is_allowed(const uint8_t *image, unsigned count)
{
    uint16_t crc = watch_crc(image, count);
    for (unsigned i = 0; i < named_count; i++)
        if (named[i].length == count && named[i].crc == crc)
            return true;
    return false;
}

void feed_note_image(void)
{
    if (image_changes == noted_changes && image_length == noted_length)
        return;
    noted_changes = image_changes;
    noted_length = image_length;
    if (image_length && !feed_is_allowed(image_bytes, image_length))
        feed_allow(image_bytes, image_length);
}

static bool ends_with(const char *text, const char *end)
{
    size_t all = strlen(text), part = strlen(end);
    return all >= part && !strcmp(text + all - part, end);
}

static unsigned fields(const char *text)
{
    unsigned count = 1;
    for (; *text; text++)
        count += *text == ' ';
    return count;
}

/* Asks for nothing that could be seen. */
static bool is_harmless(const char *text)
{
    static const char *const never[] = { "again", "pause", "step", "start", "erase", 0 };
    static const char *const maybe[] = { "hold", "lamp", "master", "press", 0 };
    size_t word = strcspn(text, " ");
    for (unsigned i = 0; never[i]; i++)
        if (strlen(never[i]) == word && !strncmp(text, never[i], word))
            return false;
    for (unsigned i = 0; maybe[i]; i++)
        if (strlen(maybe[i]) == word && !strncmp(text, maybe[i], word))
            return ends_with(text, i ? " auto" : " 0");
    return strncmp(text, "dial ", 5) || fields(text) < 4;
}

/* The line is one that a board must obey; its words without number and CRC, or 0. */
static const char *valid(void)
{
    static char words[LINE + 1];
    char crc[8];
    unsigned count = length;
    if (count && line[count - 1] == '\r')
        count--;
    if (count < 9 || count >= LINE || line[0] != '?' || line[3] != ' ' || line[count - 5] != ' ')
        return 0;
    snprintf(crc, sizeof crc, "%04X", watch_crc((const uint8_t *)line, count - 5));
    if (strncmp(crc, line + count - 4, 4))
        return 0;
    snprintf(words, sizeof words, "%.*s", (int)count - 9 > 0 ? (int)count - 9 : 0, line + 4);
    return words;
}

static void note(const char *words)
{
    unsigned count;
    char crc[5];
    if (sscanf(words, "begin %u %4[0-9A-F]", &count, crc) == 2)
        name(count, (uint16_t)strtoul(crc, 0, 16));
}

void feed_byte(uint8_t byte)
{
    feed_total++;
    if (byte != '\n') {
        if (length < LINE)
            line[length++] = (char)byte;
        host_feed(byte);
        return;
    }
    const char *words = valid();
    if (feed_spoils && words && (feed_mode == NOISE || (feed_mode == HARMLESS && !is_harmless(words))))
        host_feed(0xFF);
    else if (words)
        note(words);
    length = 0;
    host_feed('\n');
}

void feed_request(uint8_t sequence, const char *text)
{
    char whole[LINE + 1];
    int count = snprintf(whole, sizeof whole - 6, "?%02X %s", sequence, text);
    if (count > LINE - 6)
        count = LINE - 6;
    snprintf(last, sizeof last, "%.*s %04X", count, whole, watch_crc((const uint8_t *)whole, (unsigned)count));
    feed_again();
}

void feed_again(void)
{
    for (const char *c = last; *c; c++)
        feed_byte((uint8_t)*c);
    feed_byte('\n');
}
