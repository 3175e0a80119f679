/** A boot loader that was cut off between erasing and writing page 0 leaves the rest of the firmware behind it. */
import { expect, it } from 'vitest';
import { VirtualBoard } from '../../electron/host/virtual/board.ts';
import { loadImage } from '../../electron/host/virtual/images.ts';
import { encodeTable } from '../../shared/table/encode.ts';
import { buildStore } from '../../shared/table/store.ts';
import { twoStage } from '../fixtures/sites/two-stage.ts';

const SECOND = 16_000_000;
/** Atmel 8271 and 2549: pages of 64 and 128 words. */
const PAGES = [
  ['atmega328p', 128],
  ['atmega2560', 256],
] as const;

it.each(PAGES)(
  'an %s whose first page is erased runs into the second and stops there, with no pin driven',
  (chip, page) => {
    const image = loadImage(chip);
    if (!image.ok) throw new Error(image.error);
    const bytes = encodeTable({ ...twoStage, chip }).bytes;
    if (bytes === null) throw new Error('the junction does not encode');
    const eeprom = buildStore(chip, { slots: [{ sequence: 1, image: bytes }, null] });
    const driven = (flash: Uint8Array) => {
      const board = new VirtualBoard({ chip, flash, eeprom });
      const pins = new Set<number>();
      board.onPin = (pin, level) => {
        if (level !== 'z') pins.add(pin);
      };
      board.power(true);
      board.run(SECOND / 4);
      return { pins: pins.size, at: board.programCounter };
    };
    // The same board with all of its firmware lights lamps.
    expect(driven(image.flash).pins).toBeGreaterThan(0);
    const { pins, at } = driven(image.flash.slice().fill(0xff, 0, page));
    expect(pins).toBe(0);
    expect(at).toBeGreaterThanOrEqual(page);
    expect(at).toBeLessThanOrEqual(page + 4);
  },
);
