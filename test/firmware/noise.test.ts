import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { encodeRequest } from '../../shared/link/line.ts';
import { imageCrc } from '../../shared/table/shape.ts';
import { penmarrowBoard, withoutSweep } from '../timing/example.ts';
import { measure } from '../timing/measure.ts';
import { PENMARROW } from '../timing/penmarrow.ts';
import { Random } from '../timing/random.ts';
import { imageOf, Rig } from '../timing/rig.ts';

const table = withoutSweep(penmarrowBoard().table);
const SEED = 20_261_125;
const ascii = (text: string): Uint8Array => new TextEncoder().encode(text);

/** Requests that would change what is seen if a damaged copy were obeyed. */
const TEMPTING = [
  encodeRequest(1, 'dial', [0, 0, 30_000]),
  encodeRequest(2, 'again'),
  encodeRequest(3, 'lamp', ['all', 'on']),
  encodeRequest(4, 'master', ['off']),
  encodeRequest(5, 'step', [0]),
  encodeRequest(6, 'pause'),
  encodeRequest(7, 'erase'),
  encodeRequest(8, 'lamp', [0, 'on', 60_000]),
];

describe('no byte on the line disturbs the lamps', () => {
  let rig: Rig;
  let random: Random;

  beforeEach(() => {
    rig = new Rig(table);
    random = new Random(SEED);
    rig.board.power(true);
    rig.runMs(200);
  });

  // After each kind of trouble: the lamps are on the paper schedule and one newline later the board listens.
  afterEach(() => {
    rig.board.write(ascii('\n'));
    while (rig.board.bytesOnTheWay > 0) rig.runMs(1);
    expect(rig.ask('beat')).toMatch(/^ok \d+$/);
    rig.runMs(50_000);
    expect(rig.board.bytesLost, 'bytes that the firmware was too slow for').toBe(0);
    const result = measure(rig.edges, PENMARROW, rig.edges[0]?.cycles ?? 0);
    expect(result.wrong).toBeNull();
    expect(result.worstMicroseconds).toBeLessThan(1000);
  });

  function send(bytes: Uint8Array): void {
    rig.board.write(bytes);
    while (rig.board.bytesOnTheWay > 0) rig.runMs(5);
  }

  test('random bytes, at the full rate of the line', () => {
    for (let block = 0; block < 60; block++) send(random.bytes(2000));
  });

  test('random printable lines', () => {
    for (let block = 0; block < 2000; block++) {
      const letters = Array.from({ length: random.below(90) }, () => 0x20 + random.below(0x5f));
      send(Uint8Array.from([...letters, 0x0a]));
    }
  });

  test('tempting lines with one byte changed', () => {
    for (let count = 0; count < 2000; count++) {
      const line = ascii(random.pick(TEMPTING));
      // Not the newline: its loss only joins two lines, which the next test does.
      const at = random.below(line.length - 1);
      line[at] = (line[at] ?? 0) ^ (1 << random.below(7));
      send(line);
    }
  });

  test('tempting lines cut short or run together', () => {
    for (let count = 0; count < 1000; count++) {
      const line = random.pick(TEMPTING);
      send(ascii(line.slice(0, 1 + random.below(line.length - 2))));
      if (random.below(2) === 0) send(ascii('\n'));
      else send(ascii(line));
      // A whole line behind a cut one belongs to it and is dropped with it.
    }
  });

  test('an upload whose parts come twice and in any order, and which is never started', () => {
    const image = imageOf(table);
    expect(rig.ask('begin', image.length, imageCrc(image).toString(16).toUpperCase().padStart(4, '0'))).toBe('ok');
    const offsets = Array.from({ length: Math.ceil(image.length / 16) }, (_, index) => 16 * index);
    for (const offset of [...offsets].reverse().concat(offsets)) {
      const hex = Buffer.from(image.subarray(offset, offset + 16))
        .toString('hex')
        .toUpperCase();
      expect(rig.ask('part', offset, hex)).toBe(`ok ${offset}`);
    }
    rig.runMs(6000);
    expect(rig.ask('start'), 'given up in the silence').toBe('no 7 -');
  });
});
