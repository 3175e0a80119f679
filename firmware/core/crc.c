#include "crc.h"

#include "bits.h"

const IN_FLASH uint8_t bit_masks[8] = { 1, 2, 4, 8, 16, 32, 64, 128 };

/* Half a byte at a time: 32 bytes of table where a whole byte would want 512. */
static const IN_FLASH uint16_t nibbles[16] = {
    0x0000, 0x1021, 0x2042, 0x3063, 0x4084, 0x50A5, 0x60C6, 0x70E7,
    0x8108, 0x9129, 0xA14A, 0xB16B, 0xC18C, 0xD1AD, 0xE1CE, 0xF1EF,
};

uint16_t crc16_byte(uint16_t crc, uint8_t byte)
{
    crc = (uint16_t)((crc << 4) ^ nibbles[((crc >> 12) ^ (byte >> 4)) & 15]);
    return (uint16_t)((crc << 4) ^ nibbles[((crc >> 12) ^ byte) & 15]);
}

uint8_t crc8_byte(uint8_t crc, uint8_t byte)
{
    crc ^= byte;
    for (uint8_t i = 0; i < 8; i++)
        crc = (uint8_t)(crc & 0x80 ? (crc << 1) ^ 0x07 : crc << 1);
    return crc;
}
