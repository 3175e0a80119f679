#include "line.h"

#include "crc.h"

uint8_t line_sequence;
uint16_t line_crc;
uint16_t line_dropped;

/* The newline itself is not kept; a NUL takes its place. */
static char line[LINK_REQUEST_LINE];
static uint8_t length;
/* Something was wrong: wait for the newline and drop what came before it. */
static bool bad;
static bool returned;
static const char *field;

static uint8_t digit(char c)
{
    if (c >= '0' && c <= '9')
        return (uint8_t)(c - '0');
    if (c >= 'A' && c <= 'F')
        return (uint8_t)(c - 'A' + 10);
    return NONE;
}

/* `count` digits from `text` on; false when one is none. */
static bool digits(const char *text, uint8_t count, uint32_t *value)
{
    *value = 0;
    while (count--) {
        uint8_t d = digit(*text++);
        if (d == NONE)
            return false;
        *value = *value << 4 | d;
    }
    return true;
}

/* "?SS " and more, then a space and four digits that are the CRC of the rest. */
static bool right(void)
{
    uint32_t value;
    if (length < 9 || line[0] != '?' || line[3] != ' ' || line[length - 5] != ' '
        || !digits(line + length - 4, 4, &value))
        return false;
    length = (uint8_t)(length - 5);
    uint16_t crc = CRC16_START;
    for (uint8_t i = 0; i < length; i++)
        crc = crc16_byte(crc, (uint8_t)line[i]);
    line[length] = 0;
    line_crc = crc;
    if (crc != value || !digits(line + 1, 2, &value))
        return false;
    line_sequence = (uint8_t)value;
    line_rewind();
    return true;
}

bool line_feed(uint8_t byte)
{
    if (byte == '\n') {
        bool fine = !bad && right();
        if (!fine && line_dropped != 0xFFFF)
            line_dropped++;
        length = 0;
        bad = returned = false;
        return fine;
    }
    /* A carriage return is fine before the newline only. */
    if (returned || (byte != '\r' && (byte < ' ' || byte > '~')) || (byte != '\r' && length == sizeof line - 1))
        bad = true;
    else if (byte == '\r')
        returned = true;
    else
        line[length++] = (char)byte;
    return false;
}

void line_rewind(void) { field = line + 3; }

/* Steps over the space before a field; false when there is none. */
static bool next(void)
{
    if (*field != ' ')
        return false;
    field++;
    return true;
}

static bool ended(char c) { return c == ' ' || c == 0; }

uint8_t line_word(const IN_FLASH char *words)
{
    if (!next())
        return NONE;
    const char *start = field;
    while (!ended(*field))
        field++;
    for (uint8_t i = 0; *words; i++) {
        const char *c = start;
        for (; *words && *words == *c; words++)
            c++;
        if (!*words && c == field)
            return i;
        while (*words++) {
        }
    }
    field = start - 1;
    return NONE;
}

bool line_number(uint32_t *value)
{
    if (!next() || ended(*field))
        return false;
    uint32_t sum = 0;
    for (; !ended(*field); field++) {
        uint8_t d = digit(*field);
        if (d > 9 || sum > 0xFFFFFFFF / 10 || sum * 10 > 0xFFFFFFFF - d)
            return false;
        sum = sum * 10 + d;
    }
    *value = sum;
    return true;
}

uint8_t line_index(uint8_t *index, uint8_t count)
{
    uint32_t value;
    if (!line_number(&value))
        return CODE_BAD_ARGUMENTS;
    *index = (uint8_t)value;
    return value < count ? 0 : CODE_NO_SUCH_THING;
}

bool line_hex(uint32_t *value, uint8_t count)
{
    if (!next() || !digits(field, count, value))
        return false;
    field += count;
    return ended(*field);
}

bool line_bytes(uint8_t *bytes, uint8_t *count, uint8_t most, bool blank)
{
    uint32_t value;
    *count = 0;
    if (!next())
        return false;
    if (blank && field[0] == '-' && ended(field[1])) {
        field++;
        return true;
    }
    for (; !ended(*field); field += 2) {
        if (*count == most || !digits(field, 2, &value))
            return false;
        bytes[(*count)++] = (uint8_t)value;
    }
    return *count != 0;
}

bool line_end(void) { return *field == 0; }
