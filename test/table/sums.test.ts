import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { crc8, crc16 } from '../../shared/table/crc.ts';
import { decodeTime, encodeTime, nearestTime, TIME_MAX } from '../../shared/table/time.ts';

describe('check sums', () => {
  const nine = new TextEncoder().encode('123456789');

  it('have their published check values', () => {
    // Parameters 1021/FFFF give 29B1, 07/00 gives F4; 1021 from 0 gives 31C3.
    expect(crc16(nine)).toBe(0x29b1);
    expect(crc16(nine, 0)).toBe(0x31c3);
    expect(crc8(nine)).toBe(0xf4);
  });

  it('can be continued', () => {
    expect(crc16(nine.subarray(4), crc16(nine.subarray(0, 4)))).toBe(0x29b1);
  });
});

describe('time words', () => {
  it('count 10 ms, then seconds', () => {
    expect([0, 10, 3000, 327_670, 328_000, 32_767_000].map(encodeTime)).toEqual([0, 1, 300, 0x7fff, 0x8148, 0xffff]);
  });

  it('do not exist for times between the steps or beyond them', () => {
    expect([5, 327_680, 328_500, 32_768_000, -10, 0.5, Number.NaN].map(encodeTime)).toEqual(new Array(7).fill(null));
  });

  it('read back every time that has one, and every word can be read', () => {
    for (let word = 0; word < 65_536; word += 1) {
      const ms = decodeTime(word);
      expect(decodeTime(encodeTime(ms) ?? -1)).toBe(ms);
    }
  });

  it('nearest to a time: half way, the longer', () => {
    expect([-5, 4, 5, 18_004, 18_005].map(nearestTime)).toEqual([0, 0, 10, 18_000, 18_010]);
    expect([327_674, 327_675, 327_834, 327_835, 328_499, 328_500].map(nearestTime)).toEqual([
      327_670, 327_670, 327_670, 328_000, 328_000, 329_000,
    ]);
    expect([TIME_MAX + 1, Number.POSITIVE_INFINITY, Number.NaN].map(nearestTime)).toEqual([TIME_MAX, TIME_MAX, 0]);
  });

  it('nearest to a time is never further than any other word', () => {
    const words = fc.integer({ min: 0, max: 65_535 }).map(decodeTime);
    fc.assert(
      fc.property(fc.integer({ min: 0, max: TIME_MAX }), words, (ms, other) => {
        const nearest = nearestTime(ms);
        expect(encodeTime(nearest)).not.toBeNull();
        expect(Math.abs(nearest - ms)).toBeLessThanOrEqual(Math.abs(other - ms));
      }),
    );
  });
});
