import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { loadImage } from '../../electron/host/virtual/images.ts';
import { changedImages, firmwareVersion, type Manifest } from '../../scripts/build-firmware.ts';
import { STORE_VERSION } from '../../shared/table/format.ts';

const manifest: Manifest = JSON.parse(
  readFileSync(new URL('../../firmware/images/manifest.json', import.meta.url), 'utf8'),
);
const small = manifest.chips.atmega328p;
const large = manifest.chips.atmega2560;

describe('the committed images', () => {
  it('are what the source gives, byte for byte', () => {
    expect(changedImages()).toEqual([]);
  });

  it('are of the version that the source names', () => {
    expect([small.firmware, large.firmware]).toEqual([firmwareVersion(), firmwareVersion()]);
  });

  it('fit beside the older boot loader, which takes 2 KB of the ATmega328P, and beside 8 KB on the ATmega2560', () => {
    expect(small.flash).toBeLessThanOrEqual(30_720);
    expect(large.flash).toBeLessThanOrEqual(253_952);
    for (const chip of ['atmega328p', 'atmega2560'] as const) {
      const image = loadImage(chip);
      if (!image.ok) throw new Error(image.error);
      expect(image.flash.findLastIndex((byte) => byte !== 0xff)).toBeLessThan(manifest.chips[chip].flash);
    }
  });

  it('name the version of the store that they write', () => {
    expect([small.store, large.store]).toEqual([STORE_VERSION, STORE_VERSION]);
  });

  it('leave 300 bytes of RAM for brightness and 300 for the stack beside 1,340 in use', () => {
    expect(small.ram).toBeLessThanOrEqual(1340);
    expect(2048 - small.ram - 300).toBeGreaterThanOrEqual(300);
    expect(small.symbols.__heap_start - 0x100).toBe(small.ram);
    expect(large.ram).toBeLessThanOrEqual(4096);
  });
});
