/* The unchanged core on a board made of arrays, driven by lines on standard
 * input, answering on standard output. One process runs any number of boards,
 * one after the other.
 *
 * Power and time
 *   table HEX           new board: this image kept in slot A of a blank EEPROM,
 *                       power on at board time 0
 *   table HEX NOW       the same at board time NOW
 *   off, on [CAUSE] [NOW]   power; CAUSE 1 (power) and NOW 0 unless given
 *   run N               N milliseconds
 *   company 0|1         1: a host is always there, so overrides, holds and
 *                       pauses stay (0 at first)
 * Inputs
 *   raw I 0|1           input I active or not at its pin, its polarity counted in
 *   pin P 0|1           level of pin P
 *   finds H LEVEL REST LIT [LATER]   what a probe finds from now on, of a lamp
 *                       lit when high (H 1) or low (H 0); - for what is not
 *                       measured; LATER times there is no time for it
 *   supply READING      what the internal reference reads (225: 5.0 V)
 *   out O               prints `o NOW O LEVEL`, -1 where nothing is driven
 * Requests
 *   ask TEXT            a request line with a sequence number and CRC of its own,
 *                       done at once (between two milliseconds); its answer is
 *                       printed, and slow work begins
 *   rx HEX              bytes to the receiver
 *   wire 0|1            1: bytes take their time at 57,600 baud and rings are as
 *                       small as on the board (0 at first)
 * Store
 *   eeprom HEX|blank    sets the bytes from address 0 on, the rest FF (power off)
 *   dump                prints `eeprom HEX`
 *   cut N [GARBAGE]     the power fails in the Nth EEPROM operation from now (an
 *                       erase and a write are two); the byte then holds GARBAGE
 *                       (hexadecimal), or what it held before; 0: never
 *   operations          prints `operations N` done so far
 * Other
 *   poke AT HEX         overwrites bytes of the running image in RAM
 *   spoil AT HEX        turns these bits of a byte of the EEPROM over, power on or off
 *   say TEXT            prints `# TEXT`
 *   quiet 0|1           1: no t and r lines (0 at first)
 *
 * Printed lines
 *   t NOW LIT           lit lamps changed, read back from the outputs; LIT as in
 *                       the protocol
 *   r NOW SITE ROW      a site entered an interval
 *   f NOW SITE FAULT    a site went to its fault aspect
 *   > LINE              a line that the board has sent; empty ones are no lines
 *   cut                 the power has failed
 *   bad WHAT            the core or the script did what it must not; the process
 *                       ends
 */
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
#include "store.h"

/* The core's variables, gathered by the linker so that a power-on can set them
 * as the start of a program does. */
extern uint8_t __start_core_data[], __stop_core_data[], __start_core_bss[], __stop_core_bss[];
static uint8_t *initial;

static bool powered, company, quiet;
static uint8_t shown[LAMP_BITS];
static uint8_t sequence;
static char command[1 << 16];

/* Byte by byte and unchecked: between variables lie the guards of the checker. */
__attribute__((no_sanitize("address"))) static void copy(uint8_t *to, const uint8_t *from, size_t count)
{
    for (volatile size_t i = 0; i < count; i++)
        to[i] = from ? from[i] : 0;
}

static void bad(const char *what)
{
    printf("bad %s: %s\n", what, command);
    exit(1);
}

void hal_note_interval(uint8_t site, uint8_t row)
{
    if (!quiet)
        printf("r %u %u %u\n", (unsigned)board_now, site, row);
}

void hal_note_fault(uint8_t site, uint8_t fault)
{
    printf("f %u %u %u\n", (unsigned)board_now, site, fault);
}

/* Reads the lamps back from the outputs, so that outputs and plan are held
 * against each other at every change. */
static void look_at_lamps(void)
{
    uint8_t lit[LAMP_BITS] = { 0 };
    uint8_t lamps = image_length ? image_bytes[AT_LAMPS] : 0;
    for (uint8_t i = 0; i < lamps; i++) {
        const uint8_t *record = image_bytes + lamps_at(image_ram) + LAMP_BYTES * i;
        int level = host_output(record[0]);
        bit_put(lit, i, level >= 0 && level != ((record[1] & LAMP_ACTIVE_LOW) != 0));
    }
    if (lamps && memcmp(lit, lamps_lit, sizeof lit))
        bad("outputs differ from lamps");
    if (quiet || !memcmp(lit, shown, sizeof lit))
        return;
    memcpy(shown, lit, sizeof lit);
    printf("t %u ", (unsigned)board_now);
    for (int digit = lamps ? (lamps + 3) / 4 - 1 : 0; digit >= 0; digit--)
        printf("%X", lit[digit / 2] >> (digit & 1 ? 4 : 0) & 15);
    printf("\n");
}

static void print_sent(void)
{
    for (const char *text; (text = host_line());)
        if (*text)
            printf("> %s\n", text);
}

/* The main loop until nothing more can be done in this millisecond. */
static void settle(void)
{
    for (int i = 0; i < 8; i++) {
        board_loop();
        print_sent();
    }
}

static void power_on(uint8_t cause, uint32_t now)
{
    copy(__start_core_data, initial, (size_t)(__stop_core_data - __start_core_data));
    copy(__start_core_bss, 0, (size_t)(__stop_core_bss - __start_core_bss));
    memset(shown, 0, sizeof shown);
    host_reset(cause);
    board_now = now;
    powered = true;
    board_boot();
    look_at_lamps();
    settle();
}

static void run(unsigned long count)
{
    while (count-- && powered) {
        if (!host_millisecond()) {
            powered = false;
            host_cut = 0;
            printf("cut\n");
            return;
        }
        if (company)
            board_host_heard();
        board_loop();
        look_at_lamps();
        print_sent();
        /* Work that does not wait goes on within the millisecond. */
        board_loop();
        print_sent();
    }
}

/* Pairs of digits up to the first that is none. */
static unsigned take_hex(const char *text, uint8_t *bytes, unsigned most)
{
    unsigned count = 0, value;
    for (; isxdigit((unsigned char)text[0]) && isxdigit((unsigned char)text[1]); text += 2) {
        if (count == most)
            bad("too many bytes");
        sscanf(text, "%2x", &value);
        bytes[count++] = (uint8_t)value;
    }
    return count;
}

static void keep_table(const char *hex)
{
    uint8_t *record = host_eeprom + 48;
    memset(host_eeprom, 0xFF, sizeof host_eeprom);
    unsigned length = take_hex(hex, host_eeprom + slot_at(0), CAPACITY_IMAGE);
    uint16_t crc = CRC16_START;
    for (unsigned i = 0; i < length; i++)
        crc = crc16_byte(crc, host_eeprom[slot_at(0) + i]);
    uint8_t words[6] = { 1, 0, (uint8_t)length, (uint8_t)(length >> 8), (uint8_t)crc, (uint8_t)(crc >> 8) };
    uint8_t mark = 0;
    for (unsigned i = 0; i < sizeof words; i++)
        mark = crc8_byte(mark, record[i] = words[i]);
    record[RECORD_MARK] = mark ^ STORE_SECRET(1);
    record[RECORD_MARK + 1] = 0;
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
    if (!host_wire && powered)
        settle();
}

static void set_raw(unsigned input, unsigned active)
{
    if (input >= image_bytes[AT_INPUTS])
        bad("no such input");
    const uint8_t *record = image_bytes + inputs_at(image_ram) + INPUT_BYTES * input;
    host_level[record[0]] = active != (record[1] & INPUT_ACTIVE_LOW);
}

/* Inputs begin inactive. */
static void new_board(const char *hex, unsigned now)
{
    powered = false;
    host_cut = 0;
    memset(host_level, 0, sizeof host_level);
    keep_table(hex);
    const uint8_t *slot = host_eeprom + slot_at(0);
    const uint8_t *input = slot + (slot[AT_CHIPS] ? 16 : 12) + LAMP_BYTES * slot[AT_LAMPS];
    for (unsigned i = 0; i < slot[AT_INPUTS] && input < slot + CAPACITY_IMAGE - INPUT_BYTES; i++, input += INPUT_BYTES)
        if (input[0] < HOST_PINS)
            host_level[input[0]] = input[1] & INPUT_ACTIVE_LOW;
    power_on(CAUSE_POWER, now);
}

static uint16_t found(const char *text, uint16_t nothing)
{
    return *text == '-' ? nothing : (uint16_t)strtoul(text, 0, 10);
}

static void set_finds(const char *rest)
{
    unsigned high;
    char level[8], at_rest[8], lit[8];
    if (sscanf(rest, "%u %7s %7s %7s %u", &high, level, at_rest, lit, &host_probe_later) < 4 || high > 1)
        bad("command");
    host_probe[high].level = (uint8_t)found(level, PROBE_NO_LEVEL);
    host_probe[high].rest = found(at_rest, PROBE_NOTHING);
    host_probe[high].lit = found(lit, PROBE_NOTHING);
}

static void print_eeprom(void)
{
    printf("eeprom ");
    for (unsigned i = 0; i < EEPROM_BYTES; i++)
        printf("%02X", host_eeprom[i]);
    printf("\n");
}

static bool is(const char *word, const char **rest)
{
    size_t length = strlen(word);
    if (strncmp(command, word, length) || (command[length] && command[length] != ' '))
        return false;
    *rest = command[length] ? command + length + 1 : command + length;
    return true;
}

static void obey(void)
{
    const char *rest;
    unsigned a = 0, b = 0;
    if (is("table", &rest)) {
        const char *space = strchr(rest, ' ');
        new_board(rest, space ? (unsigned)strtoul(space, 0, 10) : 0);
    } else if (is("run", &rest)) {
        run(strtoul(rest, 0, 10));
    } else if (is("ask", &rest)) {
        ask(rest);
    } else if (is("raw", &rest) && sscanf(rest, "%u %u", &a, &b) == 2) {
        set_raw(a, b);
    } else if (is("pin", &rest) && sscanf(rest, "%u %u", &a, &b) == 2 && a < HOST_PINS) {
        host_level[a] = b;
    } else if (is("finds", &rest)) {
        set_finds(rest);
    } else if (is("supply", &rest)) {
        host_supply = (uint16_t)strtoul(rest, 0, 10);
    } else if (is("out", &rest)) {
        a = (unsigned)strtoul(rest, 0, 10);
        printf("o %u %u %d\n", (unsigned)board_now, a, host_output((uint8_t)a));
    } else if (is("rx", &rest)) {
        static uint8_t bytes[sizeof command / 2];
        unsigned count = take_hex(rest, bytes, sizeof bytes);
        for (unsigned i = 0; i < count; i++)
            host_feed(bytes[i]);
    } else if (is("say", &rest)) {
        printf("# %s\n", rest);
    } else if (is("company", &rest)) {
        company = *rest == '1';
    } else if (is("wire", &rest)) {
        host_wire = *rest == '1';
    } else if (is("quiet", &rest)) {
        quiet = *rest == '1';
    } else if (is("off", &rest)) {
        powered = false;
    } else if (is("on", &rest)) {
        a = CAUSE_POWER;
        sscanf(rest, "%u %u", &a, &b);
        power_on((uint8_t)a, b);
    } else if (is("eeprom", &rest)) {
        memset(host_eeprom, 0xFF, sizeof host_eeprom);
        if (strcmp(rest, "blank"))
            take_hex(rest, host_eeprom, EEPROM_BYTES);
    } else if (is("dump", &rest)) {
        print_eeprom();
    } else if (is("cut", &rest)) {
        host_garbage = -1;
        sscanf(rest, "%u %x", &host_cut, (unsigned *)&host_garbage);
    } else if (is("operations", &rest)) {
        printf("operations %u\n", host_operations);
    } else if (is("spoil", &rest) && sscanf(rest, "%u %x", &a, &b) == 2 && a < EEPROM_BYTES) {
        host_eeprom[a] ^= (uint8_t)b;
    } else if (is("poke", &rest) && sscanf(rest, "%u", &a) == 1 && a < CAPACITY_IMAGE && strchr(rest, ' ')) {
        take_hex(strchr(rest, ' ') + 1, image_bytes + a, CAPACITY_IMAGE - a);
    } else {
        bad("command");
    }
}

int main(void)
{
    size_t size = (size_t)(__stop_core_data - __start_core_data);
    host_supply = 225; /* 1.1 V of 5.0 V */
    initial = malloc(size + 1);
    copy(initial, __start_core_data, size);
    memset(host_eeprom, 0xFF, sizeof host_eeprom);
    static char out[1 << 16];
    setvbuf(stdout, out, _IOFBF, sizeof out);
    while (fgets(command, sizeof command, stdin)) {
        command[strcspn(command, "\n")] = 0;
        if (!command[0])
            continue;
        obey();
        /* A script that is fed step by step wants its answers as they come. */
        if (!strncmp(command, "say", 3))
            fflush(stdout);
    }
    free(initial);
    return 0;
}
