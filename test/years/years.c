/* A month on the unchanged core: hours of ticks between two commands, and of what happened
 * in them one sum and counts. A board made of arrays (../firmware/host/hal.c), one power-on.
 *
 * Commands on standard input
 *   eeprom HEX     its bytes from address 0 on, the rest FF
 *   pin P 0|1      level of pin P from outside
 *   pairs A B ...  pairs of lamps that must never be lit together
 *   on NOW         power on at board time NOW
 *   run N          N milliseconds
 *   ask TEXT       a request, done at once; its answer is printed
 *   tell 0|1       1: what goes into the sum is printed, too
 *   sum            prints `sum A B EDGES ROWS NOW`: two lanes over all since the last one
 *
 * Printed: `t NOW LAMP 0|1` (an edge, read back from the outputs), `r NOW SITE ROW`,
 * `f NOW SITE FAULT` (always), `> LINE` (an answer), `bad WHAT` and the end. */
#include <ctype.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "bits.h"
#include "board.h"
#include "crc.h"
#include "host.h"
#include "image.h"
#include "lamps.h"

/* How often outputs are read back when no lamp should have changed, ms. */
#define LOOK_EVERY 1000

static uint32_t lane[2];
static unsigned long edges, rows;
static bool tell;
static uint8_t shown[LAMP_BITS];
static uint8_t pairs[512][2];
static unsigned pair_count;
static uint8_t sequence;
static char command[1 << 14];

static void bad(const char *what)
{
    printf("bad %s at %u\n", what, (unsigned)board_now);
    exit(1);
}

static void mix(uint32_t word)
{
    lane[0] = (lane[0] ^ word) * 16777619u;
    lane[1] = (lane[1] ^ word) * 0x85EBCA6Bu;
    lane[1] ^= lane[1] >> 13;
}

static void note(char kind, uint32_t a, uint32_t b)
{
    mix(board_now);
    mix((uint32_t)kind << 16 | a << 8 | b);
    if (tell)
        printf("%c %u %u %u\n", kind, (unsigned)board_now, (unsigned)a, (unsigned)b);
}

void hal_note_interval(uint8_t site, uint8_t row)
{
    rows++;
    note('r', site, row);
}

void hal_note_fault(uint8_t site, uint8_t fault)
{
    bool before = tell;
    tell = true;
    note('f', site, fault);
    tell = before;
}

static void look(void)
{
    uint8_t lamps = image_bytes[AT_LAMPS];
    const uint8_t *record = image_bytes + lamps_at(image_ram);
    for (uint8_t i = 0; i < lamps; i++, record += LAMP_BYTES) {
        int level = host_output(record[0]);
        bool lit = level >= 0 && level != ((record[1] & LAMP_ACTIVE_LOW) != 0);
        if (lit == bit_get(shown, i))
            continue;
        bit_put(shown, i, lit);
        edges++;
        note('t', i, lit);
    }
    if (memcmp(shown, lamps_lit, sizeof shown))
        bad("outputs differ from lamps");
    for (unsigned i = 0; i < pair_count; i++)
        if (bit_get(shown, pairs[i][0]) && bit_get(shown, pairs[i][1]))
            bad("conflicting lamps lit together");
}

static void print_answers(void)
{
    for (const char *text; (text = host_line());)
        if (*text == '=')
            printf("> %s\n", text);
}

static void run(unsigned long count)
{
    static unsigned until_look;
    while (count--) {
        if (!host_millisecond())
            bad("power");
        board_loop();
        if (!until_look-- || memcmp(shown, lamps_lit, sizeof shown)) {
            look();
            until_look = LOOK_EVERY;
        }
    }
    print_answers();
}

static void ask(const char *text)
{
    char line[128];
    uint16_t crc = CRC16_START;
    int length = snprintf(line, sizeof line, "?%02X %.100s", sequence++, text);
    for (int i = 0; i < length; i++)
        crc = crc16_byte(crc, (uint8_t)line[i]);
    snprintf(line + length, sizeof line - (size_t)length, " %04X\n", crc);
    for (const char *c = line; *c; c++)
        host_feed((uint8_t)*c);
    for (int i = 0; i < 4; i++)
        board_loop();
    print_answers();
}

static void power_on(uint32_t now)
{
    host_reset(CAUSE_RESET);
    host_supply = 225; /* 1.1 V of 5.0 V */
    board_now = now;
    board_boot();
    for (int i = 0; i < 4; i++)
        board_loop();
    print_answers();
}

static void set_eeprom(const char *text)
{
    memset(host_eeprom, 0xFF, sizeof host_eeprom);
    unsigned value;
    for (unsigned at = 0; isxdigit((unsigned char)text[0]) && isxdigit((unsigned char)text[1]); text += 2) {
        if (at == EEPROM_BYTES)
            bad("too many bytes");
        sscanf(text, "%2x", &value);
        host_eeprom[at++] = (uint8_t)value;
    }
}

static void set_pairs(const char *text)
{
    unsigned a, b;
    for (int used; sscanf(text, "%u %u%n", &a, &b, &used) == 2; text += used) {
        if (pair_count == sizeof pairs / sizeof *pairs)
            bad("too many pairs");
        pairs[pair_count][0] = (uint8_t)a;
        pairs[pair_count++][1] = (uint8_t)b;
    }
}

static void print_sum(void)
{
    printf("sum %u %u %lu %lu %u\n", (unsigned)lane[0], (unsigned)lane[1], edges, rows, (unsigned)board_now);
    fflush(stdout);
    lane[0] = lane[1] = 0;
    edges = rows = 0;
}

int main(void)
{
    static char out[1 << 16];
    setvbuf(stdout, out, _IOFBF, sizeof out);
    unsigned a, b;
    while (fgets(command, sizeof command, stdin)) {
        command[strcspn(command, "\n")] = 0;
        const char *rest = strchr(command, ' ');
        rest = rest ? rest + 1 : "";
        if (!strncmp(command, "run ", 4))
            run(strtoul(rest, 0, 10));
        else if (!strncmp(command, "ask ", 4))
            ask(rest);
        else if (!strncmp(command, "pin ", 4) && sscanf(rest, "%u %u", &a, &b) == 2 && a < HOST_PINS)
            host_level[a] = b;
        else if (!strcmp(command, "sum"))
            print_sum();
        else if (!strncmp(command, "tell ", 5))
            tell = *rest == '1';
        else if (!strncmp(command, "pairs ", 6))
            set_pairs(rest);
        else if (!strncmp(command, "eeprom ", 7))
            set_eeprom(rest);
        else if (!strncmp(command, "on ", 3))
            power_on((uint32_t)strtoul(rest, 0, 10));
        else
            bad("command");
    }
    return 0;
}
