#include "image.h"

uint8_t image_bytes[CAPACITY_IMAGE];
uint16_t image_length;
uint16_t image_shape;
uint8_t image_changes;

static const IN_FLASH uint8_t extra_bytes[] = {
    [OP_AFTER] = 0, [OP_UNTIL] = 2, [OP_UNTIL_MAX] = 2, [OP_EXTEND] = 3, [OP_RANDOM] = 1,
    [OP_SYNC] = 1,  [OP_JUMP] = 3,  [OP_CLEAR] = 1,     [OP_LATCH] = 1,
};

uint8_t image_ram(uint16_t at) { return image_bytes[at]; }

uint16_t source_word(image_source source, uint16_t at)
{
    uint8_t low = source(at);
    return (uint16_t)(low | source((uint16_t)(at + 1)) << 8);
}

uint16_t lamps_at(image_source source)
{
    return source(AT_CHIPS) ? HEADER_BYTES + CHAIN_BYTES : HEADER_BYTES;
}

uint16_t inputs_at(image_source source)
{
    return (uint16_t)(lamps_at(source) + LAMP_BYTES * source(AT_LAMPS));
}

uint16_t groups_at(image_source source)
{
    return (uint16_t)(inputs_at(source) + INPUT_BYTES * source(AT_INPUTS));
}

uint16_t programs_at(image_source source)
{
    return (uint16_t)(groups_at(source) + GROUP_BYTES * source(AT_GROUPS));
}

uint16_t program_at(image_source source, uint8_t program)
{
    uint16_t at = programs_at(source);
    while (program--)
        at = (uint16_t)(at + source_word(source, at));
    return at;
}

uint8_t row_extra(uint8_t operation) { return extra_bytes[operation]; }

uint32_t word_tens(uint16_t word)
{
    return word & 0x8000 ? (uint32_t)(word & 0x7FFF) * 100 : word;
}

uint32_t word_ms(uint16_t word)
{
    return word & 0x8000 ? (uint32_t)(word & 0x7FFF) * 1000 : (uint32_t)word * 10;
}

uint16_t nearest_word(uint32_t ms)
{
    /* Half way from the longest time in 10 ms, 327.67 s, to 328 s. */
    if (ms < 327835) {
        uint16_t tens = (uint16_t)((ms + 5) / 10);
        return tens < 0x7FFF ? tens : 0x7FFF;
    }
    return (uint16_t)(0x8000 | (ms + 500) / 1000);
}
