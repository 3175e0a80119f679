#include "answer.h"

#include "crc.h"

static uint16_t crc;

static void put(char c)
{
    crc = crc16_byte(crc, (uint8_t)c);
    hal_send(c);
}

static void put_digit(uint8_t nibble)
{
    nibble &= 15;
    put((char)(nibble < 10 ? '0' + nibble : 'A' - 10 + nibble));
}

static void put_hex(uint32_t value, uint8_t digits)
{
    while (digits--)
        put_digit((uint8_t)(value >> 4 * digits));
}

void answer_begin(char mark, uint8_t number)
{
    crc = CRC16_START;
    put(mark);
    put_hex(number, 2);
}

void answer_end(void)
{
    uint16_t sum = crc;
    put(' ');
    put_hex(sum, 4);
    put('\n');
}

void answer_text(const IN_FLASH char *text)
{
    put(' ');
    while (*text)
        put(*text++);
}

void answer_word(const IN_FLASH char *words, uint8_t i)
{
    while (i--)
        while (*words++) {
        }
    answer_text(words);
}

static void put_number(uint32_t value)
{
    char digits[10];
    uint8_t count = 0;
    do {
        digits[count++] = (char)('0' + value % 10);
        value /= 10;
    } while (value);
    while (count)
        put(digits[--count]);
}

void answer_number(uint32_t value)
{
    put(' ');
    put_number(value);
}

void answer_signed(int32_t value)
{
    put(' ');
    if (value < 0)
        put('-');
    put_number(value < 0 ? 0u - (uint32_t)value : (uint32_t)value);
}

void answer_hex(uint32_t value, uint8_t digits)
{
    put(' ');
    put_hex(value, digits);
}

void answer_bits(const uint8_t *bits, uint8_t count)
{
    uint8_t digits = count ? (uint8_t)((count + 3) / 4) : 1;
    put(' ');
    while (digits--)
        put_digit(digits & 1 ? bits[digits / 2] >> 4 : bits[digits / 2]);
}

void answer_bytes(image_source source, uint16_t at, uint8_t count)
{
    put(' ');
    if (!count)
        put('-');
    while (count--)
        put_hex(source(at++), 2);
}

void answer_cause(void)
{
    static const IN_FLASH char causes[] = CAUSE_WORDS;
    answer_word(causes, hal_reset_cause());
}

void answer_master(uint8_t master)
{
    static const IN_FLASH char masters[] = MASTER_WORDS;
    answer_word(masters, master);
}

void answer_ok(uint8_t sequence)
{
    static const IN_FLASH char ok[] = "ok";
    answer_begin('=', sequence);
    answer_text(ok);
}

static const IN_FLASH char reasons[] = CODE_REASONS;

void answer_no(uint8_t sequence, uint8_t code, uint16_t place)
{
    static const IN_FLASH char no[] = "no", nowhere[] = "-";
    const IN_FLASH char *reason = reasons;
    while (*reason != code)
        while (*reason++) {
        }
    answer_begin('=', sequence);
    answer_text(no);
    answer_number(code);
    if (place == PLACE_NONE)
        answer_text(nowhere);
    else
        answer_number(place);
    answer_text(reason + 1);
    answer_end();
}
