import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { crc8 } from '../../shared/table/crc.ts';
import {
  buildStore,
  isAhead,
  readStore,
  recordAddress,
  slotAddress,
  storeRecord,
  storeSize,
} from '../../shared/table/store.ts';
import { byHandImage } from './by-hand.ts';

const label = { identity: '00C0FFEE', name: 'Penmarrow' };
const older = { sequence: 7, image: byHandImage };
const newer = { sequence: 8, image: byHandImage.slice(0, 40) };

describe('the store', () => {
  it('has two slots of 480 bytes in 1,024 and of 2,016 in 4,096', () => {
    expect([storeSize('atmega328p'), slotAddress(0, 1024), slotAddress(1, 1024)]).toEqual([1024, 64, 544]);
    expect([storeSize('atmega2560'), slotAddress(0, 4096), slotAddress(1, 4096)]).toEqual([4096, 64, 2080]);
    expect([recordAddress(0), recordAddress(1)]).toEqual([48, 56]);
  });

  it('begins with mark, version, identity and name', () => {
    const bytes = buildStore('atmega328p', { label });
    // 41 77, version 1, zero | identity | Penmarrow and seven zeros.
    const head = '41770100 00C0FFEE 50656E6D6172726F77 00000000000000'.replaceAll(' ', '');
    expect(Buffer.from(bytes.subarray(0, 24)).toString('hex').toUpperCase()).toBe(head);
    expect([...bytes.subarray(26, 1024)].every((byte) => byte === 0xff)).toBe(true);
  });

  it('marks a record by CRC-8 and 5A', () => {
    const bytes = buildStore('atmega328p', { slots: [null, { sequence: 0x0102, image: Uint8Array.of(1, 2, 3) }] });
    // Sequence, length 3, CRC-16 of 01 02 03 (ADAD), CRC-8 of these six bytes (B1) XOR 5A, zero.
    expect([...bytes.subarray(56, 64)]).toEqual([0x02, 0x01, 3, 0, 0xad, 0xad, 0xb1 ^ 0x5a, 0]);
    expect([...bytes.subarray(544, 548)]).toEqual([1, 2, 3, 0xff]);
  });

  it('gives back what was put in, and starts with the newer table', () => {
    for (const chip of ['atmega328p', 'atmega2560'] as const) {
      const read = readStore(buildStore(chip, { label, slots: [older, newer] }));
      expect(read).toEqual({ label, slots: [older, newer], newest: 1, newer: false });
    }
  });

  it('counts keeps over the end of 16 bits', () => {
    expect([isAhead(0, 65_535), isAhead(65_535, 0), isAhead(5, 5), isAhead(40_000, 10_000)]).toEqual([
      true,
      false,
      false,
      true,
    ]);
    const wrapped = readStore(
      buildStore('atmega328p', {
        slots: [
          { ...newer, sequence: 65_535 },
          { ...older, sequence: 0 },
        ],
      }),
    );
    expect(wrapped.newest).toBe(1);
  });

  it('that was never written holds nothing', () => {
    const nothing = { label: null, slots: [null, null], newest: null, newer: false };
    expect(readStore(new Uint8Array(1024).fill(0xff))).toEqual(nothing);
    expect(readStore(new Uint8Array(1024))).toEqual(nothing);
  });

  it('of a newer version shows its label and nothing else', () => {
    const bytes = buildStore('atmega328p', { label, slots: [older, newer] }, 2);
    expect(readStore(bytes)).toEqual({ label, slots: [null, null], newest: null, newer: true });
    // Mark of a record of version 2: CRC-8 XOR 5B.
    const [one, two] = [storeRecord(older), storeRecord(older, 2)];
    expect((one[6] ?? 0) ^ 0x5a).toBe((two[6] ?? 0) ^ 0x5b);
  });

  it('of another version without a label has no record that counts', () => {
    const bytes = buildStore('atmega328p', { slots: [older, newer] }, 2);
    expect(readStore(bytes)).toEqual({ label: null, slots: [null, null], newest: null, newer: false });
  });

  it('takes erased or cleared bytes for a record in no version', () => {
    for (const fill of [0x00, 0xff]) {
      const record = new Array<number>(6).fill(fill);
      for (let version = 1; version <= 90; version++)
        expect(crc8(record) ^ (0x59 + version), `version ${version}`).not.toBe(fill);
    }
  });

  it('with any one bit of a record or its image turned starts with the other table', () => {
    const bits = [...Array(7 * 8).keys()].map((bit) => 8 * recordAddress(1) + bit);
    const image = [...Array(8 * newer.image.length).keys()].map((bit) => 8 * slotAddress(1, 1024) + bit);
    fc.assert(
      fc.property(fc.constantFrom(...bits, ...image), (bit) => {
        const bytes = buildStore('atmega328p', { slots: [older, newer] });
        bytes[bit >> 3] = (bytes[bit >> 3] ?? 0) ^ (1 << (bit & 7));
        expect(readStore(bytes)).toMatchObject({ slots: [older, null], newest: 0 });
      }),
    );
  });

  it('of any bytes can be read', () => {
    fc.assert(
      fc.property(fc.uint8Array({ minLength: 1024, maxLength: 1024 }), (bytes) => {
        expect(readStore(bytes).label).toBeNull();
      }),
    );
  });
});
