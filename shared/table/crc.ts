/**
 * The two check sums of lines, images and store records. Parameters and check
 * values: firmware/PROTOCOL.md; "123456789" gives 29B1 and F4.
 */

/** CRC-16: polynomial 1021, start FFFF, not reflected, no final XOR. `crc` continues an earlier one. */
export function crc16(bytes: Iterable<number>, crc = 0xffff): number {
  let sum = crc;
  for (const byte of bytes) {
    sum ^= byte << 8;
    for (let bit = 0; bit < 8; bit += 1) sum = (sum & 0x8000 ? (sum << 1) ^ 0x1021 : sum << 1) & 0xffff;
  }
  return sum;
}

/** CRC-8: polynomial 07, start 00. */
export function crc8(bytes: Iterable<number>): number {
  let sum = 0;
  for (const byte of bytes) {
    sum ^= byte;
    for (let bit = 0; bit < 8; bit += 1) sum = (sum & 0x80 ? (sum << 1) ^ 0x07 : sum << 1) & 0xff;
  }
  return sum;
}
