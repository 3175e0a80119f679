/* The unchanged core behind a line at its real rate, for proofs about that line. A board made of arrays
 * (../firmware/host/hal.c); bytes come and go as hexadecimal.
 *
 * Commands on standard input
 *   eeprom HEX     its bytes from address 0 on, the rest FF
 *   on CAUSE       starts it: 1 power, 2 reset, and so on; what was on the line is lost
 *   go N [HEX]     these bytes to the board, then up to N milliseconds, until it has sent something;
 *                  prints `at NOW HEX` with what it has sent
 *   image          prints `image HEX`, the table that runs, or `image -`
 *   dump           prints `eeprom HEX`
 *
 * Also printed, as it happens: `table NOW HEX`, a table that has been loaded; `bad WHAT` and the end. */
#include <ctype.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "board.h"
#include "host.h"
#include "image.h"
#include "restart.h"
#include "watch.h"

#define SENT 8192

static char command[1 << 16];
static char sent[SENT];
static unsigned sent_count;

static void print_hex(const uint8_t *bytes, unsigned count)
{
    if (!count)
        putchar('-');
    while (count--)
        printf("%02X", *bytes++);
    putchar('\n');
}

static void loaded(void)
{
    printf("table %u ", (unsigned)board_now);
    print_hex(image_bytes, image_length);
}

static void take_sent(void)
{
    for (const char *text; (text = host_line());) {
        watch_line(text);
        unsigned length = (unsigned)strlen(text);
        if (sent_count + length + 1 > SENT)
            wrong("more sent than the line carries");
        memcpy(sent + sent_count, text, length);
        sent_count += length;
        sent[sent_count++] = '\n';
    }
}

static unsigned take_hex(const char *text, uint8_t *bytes, unsigned most)
{
    unsigned count = 0, value;
    for (; isxdigit((unsigned char)text[0]) && isxdigit((unsigned char)text[1]); text += 2) {
        if (count == most)
            wrong("too many bytes");
        sscanf(text, "%2x", &value);
        bytes[count++] = (uint8_t)value;
    }
    return count;
}

static void go(const char *rest)
{
    static uint8_t bytes[SENT];
    char *end;
    unsigned long most = strtoul(rest, &end, 10);
    unsigned count = *end == ' ' ? take_hex(end + 1, bytes, SENT) : 0;
    for (unsigned i = 0; i < count; i++)
        host_feed(bytes[i]);
    while (most-- && !sent_count) {
        if (!host_millisecond())
            wrong("power cut that nobody asked for");
        board_loop();
        watch_lamps();
        /* Work that does not wait goes on within the millisecond. */
        board_loop();
        take_sent();
    }
    printf("at %u ", (unsigned)board_now);
    print_hex((const uint8_t *)sent, sent_count);
    fflush(stdout);
    sent_count = 0;
}

int main(void)
{
    static char out[1 << 16];
    setvbuf(stdout, out, _IOFBF, sizeof out);
    watch_loaded = loaded;
    host_wire = true;
    while (fgets(command, sizeof command, stdin)) {
        const char *rest = strchr(command, ' ');
        rest = rest ? rest + 1 : "";
        if (!strncmp(command, "go ", 3)) {
            go(rest);
        } else if (!strncmp(command, "on ", 3)) {
            uint32_t now = board_now;
            sent_count = 0;
            restart((uint8_t)strtoul(rest, 0, 10), now);
        } else if (!strncmp(command, "eeprom ", 7)) {
            memset(host_eeprom, 0xFF, sizeof host_eeprom);
            take_hex(rest, host_eeprom, sizeof host_eeprom);
        } else if (!strncmp(command, "image", 5)) {
            printf("image ");
            print_hex(image_bytes, image_length);
            fflush(stdout);
        } else if (!strncmp(command, "dump", 4)) {
            printf("eeprom ");
            print_hex(host_eeprom, sizeof host_eeprom);
            fflush(stdout);
        } else {
            wrong("command");
        }
    }
    return 0;
}
