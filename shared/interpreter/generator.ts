/** The 16-bit generator of a site (PROTOCOL.md, chapter 4): xorshift with 7, 9, 8. */
export class Generator {
  #x: number;

  constructor(site: number) {
    this.#x = (0xace1 ^ (site * 0x9e37)) & 0xffff || 1;
  }

  /** The next number, 1..65535. */
  next(): number {
    let x = this.#x;
    x ^= (x << 7) & 0xffff;
    x ^= x >> 9;
    x ^= (x << 8) & 0xffff;
    this.#x = x;
    return x;
  }

  /** True `share` times in 256. */
  chance(share: number): boolean {
    return this.next() >> 8 < share;
  }
}

/** The time from `low` to `high`, ms, in steps of 10 ms, that a draw stands for; `low` when they are the wrong way round. */
export function drawnTime(draw: number, low: number, high: number): number {
  const span = Math.min(65_535, Math.max(0, (high - low) / 10));
  return low + 10 * Math.floor((draw * (span + 1)) / 65_536);
}
