/** Versions of the store: the core built for versions to come meets today's store, and today's core theirs. */
import { describe, expect, it } from 'vitest';
import { imageCrc, imageShape } from '../../../shared/table/shape.ts';
import { buildStore, readStore, recordAddress, slotAddress, storeRecord } from '../../../shared/table/store.ts';
import { twoStage } from '../../fixtures/sites/two-stage.ts';
import { zebra } from '../../fixtures/sites/zebra.ts';
import { answers, between, changes, events, hex, hex4, imageOf, play, upload } from './play.ts';

const AT_SWEEP = 7;
const label = { identity: '00C0FFEE', name: 'Elm Road' };
const junction = imageOf({ ...twoStage, sweep: 0 });
const beacons = imageOf(zebra);
/** What the steps in versions/ make of an image: 100 ms of sweep for each. */
const stepped = (image: Uint8Array, steps: number) => {
  const next = image.slice();
  next[AT_SWEEP] = (next[AT_SWEEP] ?? 0) + 10 * steps;
  return next;
};
const sumOf = (image: Uint8Array) => `ok ${image.length} ${hex4(imageCrc(image))} ${hex4(imageShape(image) ?? 0)}`;
const today = buildStore('atmega328p', { label, slots: [{ sequence: 7, image: junction }, null] });
const slots = [
  { sequence: 8, image: junction },
  { sequence: 7, image: beacons },
] as const;
const newer = buildStore('atmega328p', { label, slots }, 2);

const eeproms = (lines: readonly string[]) =>
  lines.filter((text) => text.startsWith('eeprom ')).map((text) => Uint8Array.from(Buffer.from(text.slice(7), 'hex')));
const playFor = (store: number) => (script: readonly string[]) =>
  play(script, 'atmega328p', store === 1 ? undefined : store);
const who = (version: string, identity: string, shape: string, name: string) =>
  expect.stringMatching(new RegExp(`^ok amberwick 1 \\S+ ${version} atmega328p ${identity} ${shape} ${name}$`));
const ELM_ROAD = '456C6D20526F6164';

describe('a store of an older version', () => {
  it('is brought up to date: its table runs at once, is kept in the spare slot, and the label says so', async () => {
    const lines = await playFor(2)([
      `eeprom ${hex(today)}`,
      'on',
      'say lit',
      'run 3000',
      'ask state',
      'ask who',
      'dump',
    ]);
    expect(events(lines)).toEqual(['hello 1 power 03']);
    // 100 ms of sweep a lamp, which the table of version 1 did not have.
    expect(changes(between(lines, 'lit')).slice(0, 2)).toEqual(['1 01', '101 02']);
    expect(answers(lines)).toEqual(['ok 3 power 5006 400 run 01 0 8', who('2', '00C0FFEE', '\\w{4}', ELM_ROAD)]);
    const [store = new Uint8Array()] = eeproms(lines);
    expect(readStore(store)).toMatchObject({ label, newer: true });
    const next = stepped(junction, 1);
    const record = recordAddress(1);
    expect([...store.subarray(record, record + 8)]).toEqual(storeRecord({ sequence: 8, image: next }, 2));
    const at = slotAddress(1, 1024);
    expect(store.slice(at, at + next.length)).toEqual(next);
    // The old record is left as it was.
    expect(store.slice(48, 56)).toEqual(today.slice(48, 56));
    expect(store.slice(64, 544)).toEqual(today.slice(64, 544));
  });

  it('is not touched again at the next start', async () => {
    const [store = new Uint8Array()] = eeproms(await playFor(2)([`eeprom ${hex(today)}`, 'on', 'run 3000', 'dump']));
    const lines = await playFor(2)([
      `eeprom ${hex(store)}`,
      'operations',
      'on',
      'run 3000',
      'operations',
      'ask sum run',
      'run 50',
    ]);
    expect(lines.filter((text) => text.startsWith('operations'))).toEqual(['operations 0', 'operations 0']);
    expect(answers(lines)).toEqual([sumOf(stepped(junction, 1))]);
    expect(events(lines)).toEqual(['hello 1 power 01']);
  });

  it('goes through all versions between', async () => {
    const lines = await playFor(3)([`eeprom ${hex(today)}`, 'on', 'run 3000', 'ask sum run', 'ask sum kept', 'run 50']);
    expect(answers(lines)[0]).toBe('no 6 - busy');
    expect(answers(lines)[1]).toBe(sumOf(stepped(junction, 2)));
    const [second = new Uint8Array()] = eeproms(await playFor(2)([`eeprom ${hex(today)}`, 'on', 'run 3000', 'dump']));
    const third = await playFor(3)([`eeprom ${hex(second)}`, 'on', 'run 3000', 'ask sum kept', 'run 50']);
    expect(answers(third)).toEqual([sumOf(stepped(junction, 2))]);
  });

  it('is busy meanwhile for slow requests, and answers quick ones', async () => {
    const lines = await playFor(2)([
      `eeprom ${hex(today)}`,
      'on',
      'run 10',
      'ask erase',
      'ask who',
      'run 3000',
      'ask sum kept',
      'run 50',
    ]);
    expect(answers(lines)).toEqual([
      'no 6 - busy',
      who('2', '00C0FFEE', '\\w{4}', ELM_ROAD),
      sumOf(stepped(junction, 1)),
    ]);
  });

  it.each([
    ['as it was', ''],
    ['all ones', 'FF'],
    ['all zeros', '00'],
    ['something else', 'A7'],
  ])('power cut at every store operation: the old table or the new one, whole (byte left %s)', async (_, garbage) => {
    const counted = await playFor(2)([`eeprom ${hex(today)}`, 'on', 'run 3000', 'operations']);
    const total = Number(counted.find((text) => text.startsWith('operations'))?.slice(11));
    expect(total).toBeGreaterThan(150);
    const cuts = Array.from({ length: total + 1 }, (_, i) => i + 1);
    const lines = await playFor(2)(
      cuts.flatMap((n) => [
        'quiet 1',
        ...[`eeprom ${hex(today)}`, `cut ${n} ${garbage}`, 'on', 'run 3000', 'off', `say cut ${n}`],
        // Once more from what is left, to the end.
        ...['dump', 'cut 0', 'on', 'ask who', 'run 3000', 'ask sum run', 'run 50', 'ask sum kept', 'run 50', 'dump'],
        `say end ${n}`,
      ]),
    );
    const left: Uint8Array[] = [];
    for (const n of cuts) {
      const told = between(lines, `cut ${n}`, `end ${n}`);
      const what = `cut in operation ${n} of ${total}`;
      const [atCut = new Uint8Array(), atEnd = new Uint8Array()] = eeproms(told);
      left.push(atCut);
      expect(answers(told), what).toEqual([
        who('2', '00C0FFEE', '\\w{4}', ELM_ROAD),
        sumOf(stepped(junction, 1)),
        sumOf(stepped(junction, 1)),
      ]);
      expect(readStore(atEnd), what).toMatchObject({ label, newer: true });
    }
    // Today's firmware on what is left at each cut: the old table, or a store that it leaves alone.
    const old = await playFor(1)(
      left.flatMap((store, i) => [
        ...['quiet 1', `eeprom ${hex(store)}`, `say old ${i}`, 'on', 'ask sum run', 'run 50', `say done ${i}`],
      ]),
    );
    const outcomes = left.map((_, i) => answers(between(old, `old ${i}`, `done ${i}`)).join());
    expect(new Set(outcomes)).toEqual(new Set([sumOf(junction), 'no 5 - no table']));
    expect(outcomes[0]).toBe(sumOf(junction));
    expect(outcomes.at(-1)).toBe('no 5 - no table');
  });
});

describe('a store of a newer version', () => {
  it('is left alone: dark, told as a fault, its name known, nothing written', async () => {
    const lines = await playFor(1)([
      ...[
        `eeprom ${hex(newer)}`,
        'on',
        'company 1',
        'ask who',
        'ask sum kept',
        'ask read kept 0',
        'ask back',
        'ask keep',
      ],
      ...['ask lamp all on', 'run 10000', 'operations', 'dump'],
    ]);
    expect(events(lines)).toEqual(['hello 1 power 40']);
    expect(answers(lines)).toEqual([who('1', '00C0FFEE', '-', ELM_ROAD), ...Array<string>(5).fill('no 5 - no table')]);
    expect(lines).toContain('operations 0');
    expect(changes(lines)).toEqual([]);
    expect(eeproms(lines)).toEqual([newer]);
  });

  it('becomes ours with the first upload, and keeps its name', async () => {
    const lines = await playFor(1)([
      ...[`eeprom ${hex(newer)}`, 'on', ...upload(beacons), 'ask keep', 'run 3000', 'off', 'on'],
      ...['ask sum run', 'run 50', 'ask who', 'dump'],
    ]);
    expect(answers(lines).slice(-3)).toEqual(['ok 1', sumOf(beacons), who('1', '00C0FFEE', '\\w{4}', ELM_ROAD)]);
    expect(events(lines).at(-1)).toBe('hello 1 power 01');
    const [store = new Uint8Array()] = eeproms(lines);
    expect(readStore(store)).toMatchObject({ label, newer: false, newest: 0, slots: [{ sequence: 1 }, null] });
  });

  const then = async (request: string) => {
    const [store = new Uint8Array()] = eeproms(
      await playFor(1)([`eeprom ${hex(newer)}`, 'on', `ask ${request}`, 'run 500', 'off', 'dump']),
    );
    const lines = await playFor(2)([`eeprom ${hex(store)}`, 'on', 'run 500', 'ask sum run', 'run 50', 'ask who']);
    return { store: readStore(store), told: answers(lines) };
  };

  it('loses the slot that an upload begins to use, and has the other one', async () => {
    const { store, told } = await then('begin 100 1234');
    expect(store).toMatchObject({ label, newer: false, slots: [null, null] });
    expect(told).toEqual([sumOf(beacons), who('2', '00C0FFEE', '\\w{4}', ELM_ROAD)]);
  });

  it('has nothing left after erase', async () => {
    const { store, told } = await then('erase');
    expect(store).toMatchObject({ label, newer: false, slots: [null, null] });
    expect(told).toEqual(['no 5 - no table', who('2', '00C0FFEE', '-', ELM_ROAD)]);
  });

  it('has both tables left after label, for the firmware that can read them', async () => {
    const { store, told } = await then('label 12345678 4F616B');
    expect(store).toMatchObject({ label: { identity: '12345678', name: 'Oak' }, newer: false, slots: [null, null] });
    expect(told).toEqual([sumOf(junction), who('2', '12345678', '\\w{4}', '4F616B')]);
  });

  it('power cut at every store operation of erase: nothing of it runs, and erase can be asked for again', async () => {
    const counted = await playFor(1)([`eeprom ${hex(newer)}`, 'on', 'ask erase', 'run 500', 'operations']);
    const total = Number(counted.find((text) => text.startsWith('operations'))?.slice(11));
    expect(total).toBe(10);
    const cuts = Array.from({ length: total }, (_, i) => i + 1);
    const lines = await playFor(1)(
      cuts.flatMap((n) => [
        ...[`eeprom ${hex(newer)}`, `cut ${n} A7`, 'on', 'ask erase', 'run 500', 'off', 'cut 0', `say cut ${n}`],
        ...['on', 'ask sum run', 'ask erase', 'run 500', 'off', 'dump', `say end ${n}`],
      ]),
    );
    const stores = cuts.map((n) => {
      const told = between(lines, `cut ${n}`, `end ${n}`);
      expect(answers(told)).toEqual(['no 5 - no table', 'ok']);
      return eeproms(told)[0] ?? new Uint8Array();
    });
    const next = await playFor(2)(
      stores.flatMap((store) => [`eeprom ${hex(store)}`, 'on', 'run 200', 'ask sum run', 'run 50']),
    );
    expect(new Set(answers(next))).toEqual(new Set(['no 5 - no table']));
  });
});
