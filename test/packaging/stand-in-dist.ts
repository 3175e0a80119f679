/**
 * A folder in the place of Electron's own distribution: the files that packing touches, with a program that has a wire
 * of fuses in it as Electron's has (documentation: "Electron Fuses", the hard way), all at Electron's defaults.
 */
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

const SENTINEL = 'dL7pKGdnNz796PbbjQWNKmHXBZaB9tsX';
/** Run as Node, cookies, NODE_OPTIONS, inspect, asar integrity, only asar, snapshot, file privileges. */
const DEFAULTS = '10110001';

export const WIRE = Buffer.concat([Buffer.from(SENTINEL), Buffer.from([1, DEFAULTS.length]), Buffer.from(DEFAULTS)]);

/** `name` is that of the program. */
export function standInElectron(folder: string, name: string): void {
  mkdirSync(join(folder, 'locales'), { recursive: true });
  mkdirSync(join(folder, 'resources'), { recursive: true });
  const filling = Buffer.alloc(1000, 0x5a);
  writeFileSync(join(folder, name), Buffer.concat([filling, WIRE, filling]), { mode: 0o755 });
  writeFileSync(join(folder, 'chrome-sandbox'), 'stand-in', { mode: 0o755 });
  for (const language of ['en-GB', 'en-US', 'de', 'fr']) writeFileSync(join(folder, 'locales', `${language}.pak`), '');
  writeFileSync(join(folder, 'LICENSE'), 'of Electron');
  writeFileSync(join(folder, 'LICENSES.chromium.html'), 'of Chromium');
  writeFileSync(join(folder, 'version'), '45.4.1');
}

/** The state of each fuse in a program, as written. */
export function fusesOf(program: Buffer): string {
  const at = program.indexOf(SENTINEL);
  if (at < 0) throw new Error('no fuses');
  const start = at + SENTINEL.length;
  return program.toString('latin1', start + 2, start + 2 + (program[start + 1] ?? 0));
}
