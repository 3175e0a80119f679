/**
 * A board knows a repeat by the CRC of its line. One `start` in 65,536 has the CRC of the `part` before it: the board takes
 * it for a repeat, answers `ok`, and starts nothing. The host must not believe it.
 */
import { expect, it } from 'vitest';
import { BoardSession } from '../../electron/host/session.ts';
import { upload } from '../../electron/host/upload.ts';
import { toHex } from '../../shared/link/fields.ts';
import { encodeRequest } from '../../shared/link/line.ts';
import { LINK } from '../../shared/link/vocabulary.ts';
import { dialOffsets, imageShape } from '../../shared/table/shape.ts';
import { quickTown } from '../fuzz/towns.ts';
import { imageOf, storeWith } from '../timing/rig.ts';
import { CoreLine } from './core-line.ts';

const base = imageOf(quickTown);
const LAST_PART = base.length - (base.length % LINK.partBytes);
const crcOf = (line: string) => Number.parseInt(line.slice(-5, -1), 16);

/** The town with the two dials of its last site, which end the image, at other words, in 10 ms. */
function town(one: number, other: number): Uint8Array {
  const bytes = base.slice();
  const places = dialOffsets(base)?.sites.at(-1) ?? [];
  for (const [dial, word] of [one, other].entries()) {
    new DataView(bytes.buffer).setUint16(places[dial] ?? 0, word, true);
  }
  return bytes;
}

/** An image whose last part has the CRC of the `start` behind it. CRCs of single changes add up, so one dial goes by the other. */
function trap(begin: number): Uint8Array {
  const last = begin + Math.ceil(base.length / LINK.partBytes);
  const partCrc = (one: number, other: number) =>
    crcOf(encodeRequest(last, 'part', [LAST_PART, toHex(town(one, other).subarray(LAST_PART))]));
  const plain = partCrc(1, 1);
  const ones = new Map(Array.from({ length: 2999 }, (_, at) => [partCrc(1 + at, 1) ^ plain, 1 + at]));
  const wanted = crcOf(encodeRequest(last + 1, 'start'));
  for (let other = 1; other < 3000; other++) {
    const one = ones.get(wanted ^ partCrc(1, other));
    if (one !== undefined) return town(one, other);
  }
  throw new Error('no such image');
}

it('a start that is taken for a repeat of the last part is found out and done', async () => {
  const image = trap(1);
  const core = new CoreLine('atmega328p');
  try {
    core.powerOn(storeWith(quickTown));
    // A session counts on from the time at which it begins.
    await core.pass(256);
    const line = core.plug();
    const lines: string[] = [];
    const write = (bytes: Uint8Array) => {
      lines.push(String.fromCharCode(...bytes));
      line.write(bytes);
    };
    const session = new BoardSession({ ...line, write }, { clock: core });
    expect(await core.until(upload(session, image))).toEqual({ ok: true, value: imageShape(image) });
    expect(await core.running()).toEqual(image);
    // The trap was there: both lines have one CRC, and it took a second start.
    const at = lines.findIndex((text) => text.includes(' start '));
    expect(crcOf(lines[at] ?? '')).toBe(crcOf(lines[at - 1] ?? ''));
    expect(lines.filter((text) => text.includes(' start ')).length).toBe(2);
    await session.close();
  } finally {
    core.close();
  }
});
