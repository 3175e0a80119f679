import { describe, expect, it } from 'vitest';
import { imageCrc, imageShape } from '../../../shared/table/shape.ts';
import { buildStore, readStore } from '../../../shared/table/store.ts';
import { pedestrianStage } from '../../fixtures/sites/pedestrian-stage.ts';
import { twoStage } from '../../fixtures/sites/two-stage.ts';
import { zebra } from '../../fixtures/sites/zebra.ts';
import { answers, between, changes, events, hex, hex4, imageOf, play, upload } from './play.ts';

const junction = imageOf(twoStage);
const beacons = imageOf(zebra);
const crossing = imageOf(pedestrianStage);
const sumOf = (image: Uint8Array) => `ok ${image.length} ${hex4(imageCrc(image))} ${hex4(imageShape(image) ?? 0)}`;

/** What a board runs and keeps after a power-on, told by the board itself. */
const whatRuns = ['off', 'on', 'ask sum run', 'run 50', 'ask sum kept', 'run 50'];
const keepIt = ['ask keep', 'run 2500'];

const eepromIn = (lines: readonly string[]) => {
  const line = lines.find((text) => text.startsWith('eeprom '));
  if (line === undefined) throw new Error('no dump');
  return Uint8Array.from(Buffer.from(line.slice(7), 'hex'));
};

describe('the store', () => {
  it('is blank at first: the board is dark and waits', async () => {
    const lines = await play(['eeprom blank', 'on', 'run 5000', 'ask keep', 'ask sum run', 'ask snap']);
    expect(events(lines)).toEqual(['hello 1 power 80']);
    expect(changes(lines)).toEqual([]);
    expect(answers(lines)).toEqual(['no 5 - no table', 'no 5 - no table', 'ok 5000 0 0 run 80']);
  });

  it('forgets a table that was started and not kept', async () => {
    const lines = await play(['eeprom blank', 'on', ...upload(junction), 'ask state', ...whatRuns]);
    expect(answers(lines)).toContain(`ok ${hex4(imageShape(junction) ?? 0)}`);
    expect(answers(lines)).toContain('ok 0 power 5006 400 run 83 0 0');
    expect(answers(lines).slice(-2)).toEqual(['no 5 - no table', 'no 5 - no table']);
  });

  it('starts with the kept table, and keeps on counting', async () => {
    const lines = await play(['eeprom blank', 'on', ...upload(junction), ...keepIt, ...keepIt, 'dump', ...whatRuns]);
    expect(answers(lines)).toEqual(expect.arrayContaining(['ok 1', 'ok 2']));
    expect(answers(lines).slice(-2)).toEqual([sumOf(junction), sumOf(junction)]);
    const store = readStore(eepromIn(lines));
    expect(store.newest).toBe(1);
    expect(store.slots.map((slot) => slot?.sequence)).toEqual([1, 2]);
    expect(store.slots[1]?.image).toEqual(junction);
  });

  it('starts with the newer of two slots, also when the sequence number has gone round', async () => {
    const slots = [
      { sequence: 0, image: crossing },
      { sequence: 65535, image: beacons },
    ] as const;
    const lines = await play([`eeprom ${hex(buildStore('atmega328p', { slots }))}`, ...whatRuns, ...keepIt]);
    expect(answers(lines)).toEqual([sumOf(crossing), sumOf(crossing), 'ok 1']);
  });

  it('uses the other slot when the newest image is damaged or not consistent, and says so', async () => {
    const kept = eepromIn(await play([`table ${hex(junction)}`, ...upload(beacons), ...keepIt, 'dump']));
    const damaged = kept.slice();
    damaged[64 + 480 + 20] = 0x55;
    const lines = await play([`eeprom ${hex(damaged)}`, 'on', 'ask sum run', 'run 50']);
    expect(events(lines)).toEqual(['hello 1 power C1']);
    expect(answers(lines)).toEqual([sumOf(junction)]);
  });

  it('erases both slots and goes dark', async () => {
    const lines = await play([`table ${hex(junction)}`, ...keepIt, 'ask erase', 'run 50', 'ask snap', ...whatRuns]);
    expect(answers(lines).slice(-3)).toEqual(['ok 2550 0 0 run 80', 'no 5 - no table', 'no 5 - no table']);
    // Two marks, 3.4 ms each, looked at once a millisecond.
    expect(changes(lines).at(-1)).toBe('2508 0');
  });

  it('takes a label and a new table after both slots were erased', async () => {
    const both = [`table ${hex(junction)}`, ...upload(beacons), ...keepIt];
    const act = ['ask label 12345678 4F616B', 'run 200', ...upload(crossing), ...keepIt];
    const lines = await play([...both, 'ask erase', 'run 50', 'say erased', ...act, ...whatRuns]);
    const told = answers(between(lines, 'erased'));
    expect(told.filter((text) => !text.startsWith('ok'))).toEqual([]);
    expect(told.slice(-2)).toEqual([sumOf(crossing), sumOf(crossing)]);
  });

  it('puts the kept values back without starting the cycle again', async () => {
    // 18 s of green cut to 15 s, put back after 10 s: the green ends after 18 s.
    const lines = await play([
      `table ${hex(junction)}`,
      'company 1',
      'ask dial 0 0 15000',
      'run 10000',
      'ask state',
      'ask back',
      'run 100',
      'ask dial 0 0',
      'ask state',
      'run 8100',
    ]);
    expect(answers(lines)).toEqual([
      'ok 15000',
      'ok 10 power 5006 400 run 83 0 1',
      'ok',
      'ok 18000',
      'ok 10 power 5006 400 run 81 0 1',
    ]);
    expect(changes(lines)).toEqual(['1 0C', '18000 0A']);
  });

  it('says that nothing is left to keep when a nudge is nudged back', async () => {
    const lines = await play([
      `table ${hex(junction)}`,
      'ask dial 0 0 15000',
      'run 100',
      'ask state',
      'ask dial 0 0 18000',
      'run 100',
      'ask state',
    ]);
    expect(answers(lines).filter((text) => text.includes('power'))).toEqual([
      'ok 0 power 5006 400 run 83 0 1',
      'ok 0 power 5006 400 run 81 0 1',
    ]);
  });

  it('keeps what the dials say when one is turned in the middle of a keep', async () => {
    const lines = await play([
      `table ${hex(junction)}`,
      'ask dial 0 0 15000',
      'ask keep',
      'run 6',
      'ask dial 0 1 9000',
      'run 2500',
      'off',
      'on',
      'ask dial 0 0',
      'ask dial 0 1',
      'ask state',
    ]);
    expect(answers(lines)).toEqual([
      'ok 15000',
      'ok 9000',
      'ok 2',
      'ok 15000',
      'ok 9000',
      'ok 0 power 5006 400 run 81 0 2',
    ]);
  });
});

describe('a power cut', () => {
  /** All store operations of an upload with its keep, counted on a board that runs `before`. */
  async function operations(before: readonly string[], act: readonly string[]): Promise<number> {
    const lines = await play([...before, 'operations', ...act, 'operations']);
    const [from, to] = lines.filter((line) => line.startsWith('operations ')).map((line) => Number(line.slice(11)));
    return (to ?? 0) - (from ?? 0);
  }

  it.each([
    ['as it was', ''],
    ['all ones', 'FF'],
    ['all zeros', '00'],
    ['something else', 'A7'],
  ])(
    'at every store operation of upload and keep leaves the old or the new table (byte left %s)',
    async (_, garbage) => {
      const before = [`table ${hex(junction)}`, ...upload(beacons), ...keepIt];
      const act = [...upload(crossing), ...keepIt];
      const total = await operations(before, act);
      expect(total).toBeGreaterThan(200);
      const cuts = Array.from({ length: total + 1 }, (_, i) => i + 1);
      const lines = await play(
        cuts.flatMap((n) => [
          'quiet 1',
          ...before,
          `cut ${n} ${garbage}`,
          ...act,
          `say cut ${n}`,
          ...whatRuns,
          `say end ${n}`,
        ]),
      );
      const outcomes = cuts.map((n) => answers(between(lines, `cut ${n}`, `end ${n}`)));
      for (const [i, outcome] of outcomes.entries()) {
        // The very last operation writes the mark: what is left there may be the mark itself.
        const allowed =
          i < total - 1 ? [sumOf(beacons)] : i === total - 1 ? [sumOf(beacons), sumOf(crossing)] : [sumOf(crossing)];
        expect(outcome, `cut in operation ${i + 1} of ${total}`).toHaveLength(2);
        expect(allowed, `cut in operation ${i + 1} of ${total}`).toContain(outcome[0]);
        expect(outcome[1]).toBe(outcome[0]);
      }
    },
  );

  it('at every store operation of a label leaves the table, and a whole label or none', async () => {
    const before = [`table ${hex(junction)}`, 'ask label 0000BEEF 4F6C64', 'run 200'];
    const act = ['ask label 12345678 48696768', 'run 200'];
    const total = await operations(before, act);
    const cuts = Array.from({ length: total + 1 }, (_, i) => i + 1);
    const lines = await play(
      cuts.flatMap((n) => [
        'quiet 1',
        ...before,
        `cut ${n}`,
        ...act,
        'off',
        'on',
        `say cut ${n}`,
        'ask who',
        `say end ${n}`,
      ]),
    );
    const start = `ok amberwick 1 1.2.0 1 atmega328p`;
    const shape = hex4(imageShape(junction) ?? 0);
    const names = cuts.map((n) => answers(between(lines, `cut ${n}`, `end ${n}`))[0]);
    expect(new Set(names)).toEqual(
      new Set([
        `${start} 0000BEEF ${shape} 4F6C64`,
        `${start} 00000000 ${shape} -`,
        `${start} 12345678 ${shape} 48696768`,
      ]),
    );
    expect(names.at(-1)).toBe(`${start} 12345678 ${shape} 48696768`);
  });
});
