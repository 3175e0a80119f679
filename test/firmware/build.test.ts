import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { changedImages, firmwareVersion, type Manifest } from '../../scripts/build-firmware.ts';

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

  it('leave room in the flash for a boot loader of 2 KB', () => {
    expect(small.flash).toBeLessThanOrEqual(32 * 1024 - 2048);
    expect(large.flash).toBeLessThanOrEqual(64 * 1024);
  });

  it('leave 300 bytes of RAM for brightness and 300 for the stack beside 1,300 in use', () => {
    expect(small.ram).toBeLessThanOrEqual(1300);
    expect(2048 - small.ram - 300).toBeGreaterThanOrEqual(300);
    expect(small.symbols.__heap_start - 0x100).toBe(small.ram);
    expect(large.ram).toBeLessThanOrEqual(4096);
  });
});
