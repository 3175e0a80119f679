/** Intel HEX, as avr-objcopy writes it, to the bytes of a chip's flash. */

export type HexResult =
  | { readonly ok: true; readonly bytes: Uint8Array }
  | { readonly ok: false; readonly error: string };

/**
 * Reads records 00 (data), 01 (end), 02 and 04 (upper address); 03 and 05
 * (start address) mean nothing to an AVR. Unused flash is FF.
 */
export function parseHex(text: string, flashBytes: number): HexResult {
  const bytes = new Uint8Array(flashBytes).fill(0xff);
  let upper = 0;
  let ended = false;
  for (const [index, raw] of text.split(/\r?\n/).entries()) {
    const line = raw.trim();
    if (line === '') continue;
    const wrong = (what: string): HexResult => ({ ok: false, error: `line ${index + 1}: ${what}` });
    if (ended) return wrong('data after the end record');
    if (!/^:([0-9A-Fa-f]{2}){5,}$/.test(line)) return wrong('not an Intel HEX record');
    const record = Uint8Array.from(line.slice(1).match(/../g) ?? [], (pair) => Number.parseInt(pair, 16));
    const [count = 0, high = 0, low = 0, type = 0] = record;
    if (record.length !== count + 5) return wrong('record length wrong');
    if (record.reduce((sum, byte) => (sum + byte) & 0xff, 0) !== 0) return wrong('checksum wrong');
    const data = record.subarray(4, 4 + count);
    if (type === 0) {
      const address = upper + high * 256 + low;
      if (address + count > flashBytes) return wrong('beyond the flash of the chip');
      bytes.set(data, address);
    } else if (type === 1) ended = true;
    else if (type === 2) upper = ((data[0] ?? 0) * 256 + (data[1] ?? 0)) * 16;
    else if (type === 4) upper = ((data[0] ?? 0) * 256 + (data[1] ?? 0)) * 65536;
    else if (type !== 3 && type !== 5) return wrong(`unknown record type ${type}`);
  }
  return ended ? { ok: true, bytes } : { ok: false, error: 'the end record is missing' };
}
