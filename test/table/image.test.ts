import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { crc16 } from '../../shared/table/crc.ts';
import { decodeTable } from '../../shared/table/decode.ts';
import { encodeTable } from '../../shared/table/encode.ts';
import type { BoardTable } from '../../shared/table/model.ts';
import { dialOffsets, imageCrc, imageShape } from '../../shared/table/shape.ts';
import { seededDice } from '../fixtures/dice.ts';
import { randomTable } from '../fixtures/random-table.ts';
import { site } from '../fixtures/sites/build.ts';
import { everyKind } from '../fixtures/sites/index.ts';
import { twoStage, twoStageProgram } from '../fixtures/sites/two-stage.ts';
import { zebra } from '../fixtures/sites/zebra.ts';
import { byHand, byHandImage, byHandParts } from './by-hand.ts';

/** A table without its names, which are not in the image. */
function nameless(table: BoardTable | null): unknown {
  return JSON.parse(
    JSON.stringify(table, (key, value) => {
      if (key === 'name') return undefined;
      const isNames = Array.isArray(value) && value.every((item) => typeof item === 'string');
      return isNames && key !== 'states' && key !== 'fault' && key !== 'safe' ? value.length : value;
    }),
  );
}

function bytesOf(table: BoardTable): Uint8Array {
  const { bytes, findings } = encodeTable(table);
  expect(findings).toEqual([]);
  if (!bytes) throw new Error('no image');
  return bytes;
}

describe('the image worked out by hand', () => {
  it('is what the encoder makes, part by part', () => {
    const image = bytesOf(byHand);
    expect(image).toEqual(byHandImage);
    const { budget, free } = encodeTable(byHand);
    expect(budget).toEqual(byHandParts.map(([part, bytes]) => ({ part, bytes: bytes.split(' ').length })));
    expect(free).toBe(480 - 103);
  });

  it('is read back as the same table', () => {
    const { table, findings } = decodeTable(byHandImage, 'atmega328p');
    expect(findings).toEqual([]);
    expect(nameless(table)).toEqual(nameless(byHand));
    expect(table?.sites[0]?.name).toBe('site 1');
  });

  it('has its times where they can be compared', () => {
    expect(dialOffsets(byHandImage)).toEqual({ sites: [[97, 99, 101]], groups: [30] });
  });

  it('keeps its shape when only times change, and not when anything else does', () => {
    const withoutTimes = [...byHandImage.slice(0, 30), ...byHandImage.slice(32, 97)];
    const shape = imageShape(byHandImage);
    expect(shape).toBe(crc16(withoutTimes));
    const nudged = byHandImage.slice();
    nudged.set([0x64, 0], 97);
    nudged.set([0xe8, 3], 30);
    expect(imageShape(nudged)).toBe(shape);
    expect(imageCrc(nudged)).not.toBe(imageCrc(byHandImage));
    const rewired = byHandImage.slice();
    rewired[16] = 8;
    expect(imageShape(rewired)).not.toBe(shape);
  });
});

describe('boards of every kind', () => {
  it.each(Object.entries(everyKind))('%s goes into an image and comes back', (_, table) => {
    const image = bytesOf(table);
    const decoded = decodeTable(image, table.chip);
    expect(decoded.findings).toEqual([]);
    expect(nameless(decoded.table)).toEqual(nameless(table));
  });
});

describe('any consistent table', () => {
  it.each(['atmega328p', 'atmega2560'] as const)('goes into an image of the %s and comes back', (chip) => {
    for (let seed = 1; seed <= 300; seed += 1) {
      const table = randomTable(seededDice(seed), chip);
      const decoded = decodeTable(bytesOf(table), chip);
      expect(decoded.findings, `seed ${seed}`).toEqual([]);
      expect(nameless(decoded.table), `seed ${seed}`).toEqual(nameless(table));
    }
  });
});

describe('bytes that are no image', () => {
  it('are refused without an exception, whatever they are', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 600 }), (bytes) => {
        const { table, findings } = decodeTable(bytes, 'atmega328p');
        expect(table !== null || findings.length > 0).toBe(true);
        if (bytes[0] !== 1) expect(table).toBeNull();
      }),
    );
  });

  it('or an image with a byte changed, are either refused or an image that means itself', () => {
    for (let seed = 1; seed <= 500; seed += 1) {
      const dice = seededDice(seed);
      const image = bytesOf(randomTable(dice, 'atmega328p'));
      image[dice.int(0, image.length - 1)] = dice.int(0, 255);
      const { table, findings } = decodeTable(image, 'atmega328p');
      if (!table || findings.length > 0) continue;
      const again = decodeTable(bytesOf(table), 'atmega328p');
      expect(again.table, `seed ${seed}`).toEqual(table);
    }
  });

  it('say where they stop being one', () => {
    const cut = (length: number) => decodeTable(byHandImage.slice(0, length), 'atmega328p').findings[0];
    const poke = (at: number, byte: number) => {
      const bytes = byHandImage.slice();
      bytes[at] = byte;
      const { table, findings } = decodeTable(bytes, 'atmega328p');
      expect(table).toBeNull();
      expect(findings).toHaveLength(1);
      return findings[0];
    };
    expect(cut(5)).toMatchObject({ code: 'badLength', path: 'image[5]' });
    expect(cut(102)).toMatchObject({ code: 'badLength', path: 'image[102]' });
    expect(poke(0, 2)).toMatchObject({ code: 'badFormat', path: 'image[0]' });
    // The first program begins at byte 38, its first row at 62, the second at 64.
    expect(poke(38, 0x36)).toMatchObject({ code: 'badLength', path: 'image[38]' });
    expect(poke(62, 0x0f)).toMatchObject({ code: 'badRow', path: 'image[62]' });
    expect(poke(65, 0x0e)).toMatchObject({ code: 'badRow', path: 'image[64]' });
    expect(poke(91, 3)).toMatchObject({ code: 'badSite', path: 'image[91]' });
    const long = decodeTable(new Uint8Array(481), 'atmega328p');
    expect(long.findings).toMatchObject([{ code: 'tooLong', path: '' }]);
  });
});

describe('the slot of an ATmega328P', () => {
  it('holds 8 two-stage junctions and 4 beacon pairs with 48 dials of their own, 116 bytes left', () => {
    const [together] = zebra.programs;
    if (!together) throw new Error('no beacons');
    const junction = twoStage.sites[0]?.dials ?? [];
    const sites = [
      ...Array.from({ length: 8 }, (_, index) => site(`junction ${index}`, { dials: junction })),
      ...Array.from({ length: 4 }, (_, index) => site(`zebra ${index}`, { program: 1, dials: [750, 750] })),
    ];
    const lamps = Array.from({ length: 8 * 6 + 4 * 2 }, (_, index) => ({
      name: `lamp ${index}`,
      output: 128 + index,
      activeLow: false,
      type: 'led' as const,
      brightness: 31,
    }));
    const chain = { chips: 7, data: 2, clock: 3, latch: 4, enable: 5 };
    const { bytes, findings, free } = encodeTable({
      ...twoStage,
      programs: [twoStageProgram, together],
      sites,
      lamps,
      chain,
    });
    expect(findings).toEqual([]);
    expect(sites.flatMap(({ dials }) => dials)).toHaveLength(48);
    // 12 + 4 + 56 x 2 + (58 + 22) + (8 x 15 + 4 x 9).
    expect(bytes).toHaveLength(364);
    expect(free).toBe(116);
  });

  it('that is too small says by how much', () => {
    const rows = Array.from({ length: 200 }, () => twoStageProgram.rows[0] ?? { op: 'clear' as const, inputs: [] });
    const { bytes, findings, free } = encodeTable({ ...twoStage, programs: [{ ...twoStageProgram, rows }] });
    expect(bytes).toBeNull();
    // 97 bytes with 8 rows of 3, so 673 with 200.
    expect(free).toBe(480 - 673);
    expect(findings).toMatchObject([
      {
        code: 'tooLong',
        what: 'The board image needs 673 bytes, 193 more than the 480 of this board (programs: 634).',
      },
    ]);
  });
});
