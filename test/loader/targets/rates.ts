/**
 * What a receiver makes of bytes that were sent at another rate: the line is
 * drawn as levels and sampled anew, in the middle of each bit.
 */
import type { Heard } from './loader.ts';

const BITS = 10;

/** The bytes without a pause between them; the line rests afterwards. */
export function heardAt(bytes: Uint8Array, sent: number, received: number): Heard[] {
  if (sent === received) return Array.from(bytes, (byte) => ({ byte, broken: false }));
  // Position is counted in bits of the sender. Start bit low, eight bits from the lowest, stop bit high.
  const level = (position: number): number => {
    const index = Math.floor(position);
    if (index < 0 || index >= bytes.length * BITS) return 1;
    const bit = index % BITS;
    if (bit === 0) return 0;
    return bit === BITS - 1 ? 1 : ((bytes[Math.floor(index / BITS)] ?? 0) >> (bit - 1)) & 1;
  };
  const width = sent / received;
  const heard: Heard[] = [];
  let position = 0;
  while (position < bytes.length * BITS) {
    // A falling edge begins a byte; edges lie on whole bits of the sender.
    if (!(level(position) === 0 && level(position - 0.01) === 1)) {
      position = Math.floor(position) + 1;
      continue;
    }
    const sample = (bit: number): number => level(position + (bit + 0.5) * width);
    let byte = 0;
    for (let bit = 0; bit < 8; bit++) byte |= sample(bit + 1) << bit;
    heard.push({ byte, broken: sample(9) === 0 });
    // The next edge is looked for from the middle of the stop bit on.
    position = Math.ceil(position + 9.5 * width);
  }
  return heard;
}
