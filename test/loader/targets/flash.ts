/**
 * Flash as a boot loader sees it: erasing a page sets every bit, writing one
 * can only clear bits, and the loader's own part takes neither.
 */
export class Flash {
  readonly bytes: Uint8Array;
  readonly pageBytes: number;
  /** First byte of the loader; everything below it is for programs. */
  readonly loaderStart: number;
  /** Bits that a worn byte no longer lets go of: address to the bits that read 0 for ever. */
  readonly worn = new Map<number, number>();
  /** The next writes of these pages (by first address) get one bit wrong: so many times each. */
  readonly misWrites = new Map<number, number>();
  /** First addresses of the pages written since the flash was made, in order. */
  readonly written: number[] = [];

  /** `contents` from address 0 on; the rest is erased. */
  constructor(size: number, pageBytes: number, loaderStart: number, contents: Uint8Array = new Uint8Array(0)) {
    this.bytes = new Uint8Array(size).fill(0xff);
    this.bytes.set(contents.subarray(0, loaderStart));
    this.pageBytes = pageBytes;
    this.loaderStart = loaderStart;
  }

  /** The part that programs have. */
  get program(): Uint8Array {
    return this.bytes.subarray(0, this.loaderStart);
  }

  /** No first instruction: a processor runs on through erased words. */
  get blank(): boolean {
    return this.bytes[0] === 0xff && this.bytes[1] === 0xff;
  }

  read(address: number): number {
    return this.bytes[address % this.bytes.length] ?? 0xff;
  }

  erasePage(address: number): void {
    const start = this.startOf(address);
    if (start >= this.loaderStart) return;
    for (let at = start; at < start + this.pageBytes; at++) this.put(at, 0xff);
  }

  /** Writes the page that the address lies in, from its first byte. */
  writePage(address: number, data: Uint8Array): void {
    const start = this.startOf(address);
    if (start >= this.loaderStart) return;
    this.written.push(start);
    const wrong = this.misWrites.get(start) ?? 0;
    if (wrong > 0) this.misWrites.set(start, wrong - 1);
    for (const [offset, byte] of data.subarray(0, this.pageBytes).entries()) {
      // The bit that goes wrong is one that stays erased although it should be cleared, or the other way round.
      const value = wrong > 0 && offset === 5 ? byte ^ 0x10 : byte;
      this.put(start + offset, this.read(start + offset) & value);
    }
  }

  private put(address: number, value: number): void {
    this.bytes[address] = value & ~(this.worn.get(address) ?? 0);
  }

  private startOf(address: number): number {
    return (address % this.bytes.length) - (address % this.pageBytes);
  }
}
