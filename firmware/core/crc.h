/* CRC-16 1021 of lines and images, CRC-8 07 of store records. */
#ifndef CRC_H
#define CRC_H

#include <stdint.h>

#define CRC16_START 0xFFFFu

uint16_t crc16_byte(uint16_t crc, uint8_t byte);
uint8_t crc8_byte(uint8_t crc, uint8_t byte);

#endif
