import { describe, expect, it } from 'vitest';
import { imageCrc, imageShape } from '../../../shared/table/shape.ts';
import { readStore } from '../../../shared/table/store.ts';
import { twoStage } from '../../fixtures/sites/two-stage.ts';
import { answers, between, changes, events, hex, hex4, imageOf, play, upload } from './play.ts';

const image = imageOf(twoStage);
const sum = `ok ${image.length} ${hex4(imageCrc(image))} ${hex4(imageShape(image) ?? 0)}`;
const table = `table ${hex(image)}`;
const SLOT_A = 64;
const RECORD_A = 48;
/** In the first 4.1 s after power-on the kept table has its turn; then a keep of the whole image. */
const renewed = ['run 6000'];

const storeOf = (lines: readonly string[]) => {
  const dump = lines.filter((line) => line.startsWith('eeprom ')).at(-1);
  if (dump === undefined) throw new Error('no dump');
  return readStore(Uint8Array.from(Buffer.from(dump.slice(7), 'hex')));
};

describe('the kept table, damaged behind the back of the board', () => {
  it('is kept anew in the other slot, wherever it is damaged, and the lamps never notice', async () => {
    const bytes = [
      ...Array.from({ length: image.length }, (_, i) => SLOT_A + i),
      ...Array.from({ length: 7 }, (_, i) => RECORD_A + i),
    ].filter((_, i) => process.env.SOAK === '1' || i % 10 === 0);
    const lines = await play(
      bytes.flatMap((at) => [
        table,
        `spoil ${at} 10`,
        `say ${at}`,
        ...renewed,
        'dump',
        'off',
        'on',
        'ask sum run',
        'run 50',
      ]),
    );
    for (const [i, at] of bytes.entries()) {
      const next = bytes[i + 1];
      const told = between(lines, String(at), next === undefined ? undefined : String(next));
      const { newest, slots } = storeOf(told);
      expect([newest, slots[1]?.image], `byte ${at}`).toEqual([1, image]);
      expect(answers(told), `byte ${at}`).toEqual([sum]);
      expect(changes(told), `byte ${at}`).toEqual(['1 0C', '1 0C']);
    }
  });

  it('is told, and counted as a keep', async () => {
    const lines = await play([table, 'company 1', 'ask tell 1', 'spoil 80 FF', ...renewed, 'ask guard', 'ask state']);
    expect(events(lines).filter((text) => text.startsWith('guard'))).toEqual([expect.stringMatching(/^guard \d+ 2$/)]);
    expect(answers(lines).slice(1)).toEqual(['ok 0 - 0 04 0 0', 'ok 6 power 5006 400 run 81 0 2']);
  });

  it('is left alone while the running table is another one: told once, and flagged', async () => {
    const lines = await play([
      table,
      'company 1',
      'ask tell 1',
      'ask dial 0 0 15000',
      'spoil 80 FF',
      'operations',
      'run 600000',
      'operations',
      'ask guard',
      'ask state',
    ]);
    expect(events(lines).filter((text) => text.startsWith('guard'))).toHaveLength(1);
    const operations = lines.filter((line) => line.startsWith('operations'));
    expect(operations[1]).toBe(operations[0]);
    expect(answers(lines).slice(2)).toEqual(['ok 0 - 0 08 0 0', 'ok 600 power 5006 400 run C3 0 1']);
  });

  it('is found within 270 s at any time', async () => {
    const lines = await play([table, 'run 100000', 'spoil 80 FF', 'run 170000', 'ask guard']);
    expect(answers(lines)).toEqual(['ok 0 - 0 04 0 0']);
  });

  it('that is whole is never written', async () => {
    const lines = await play(['quiet 1', table, 'operations', 'run 1200000', 'operations', 'ask guard']);
    const operations = lines.filter((line) => line.startsWith('operations'));
    expect(operations[1]).toBe(operations[0]);
    expect(answers(lines)).toEqual(['ok 0 - 0 00 0 0']);
  });
});

describe('the running table', () => {
  const watched = [table, 'company 1', 'ask tell 1'];

  it('is not called damaged for what requests change in it', async () => {
    const nudges = Array.from({ length: 200 }, (_, i) => [
      `ask dial 0 ${i % 5} ${[15_000, 11_000, 3500, 2500, 1500][i % 5]}`,
      `run ${i % 7}`,
      `ask dial 0 ${i % 5} ${[18_000, 12_000, 3000, 2000, 1000][i % 5]}`,
      'run 3',
      ...(i % 20 ? [] : ['run 1500', 'ask keep', 'run 700', 'ask back', 'run 90']),
    ]).flat();
    const lines = await play([...watched, ...nudges, 'run 2000', 'ask guard']);
    expect(answers(lines).at(-1)).toBe('ok 0 - 0 00 0 0');
    expect(answers(lines).filter((text) => text.startsWith('no'))).toEqual([]);
  });

  it('is never kept while it is damaged', async () => {
    // Right before the keep, so that the guard has not found it yet.
    const lines = await play([
      table,
      'run 10',
      'ask dial 0 0 15000',
      'poke 30 55',
      'ask keep',
      'run 2500',
      'ask sum kept',
      'run 50',
    ]);
    expect(answers(lines)).toEqual(['ok 15000', 'no 10 - store failed', sum]);
  });

  it('damaged: all sites at fault, then clearing, then from their start, and told', async () => {
    const lines = await play([
      ...watched,
      'run 1000',
      'poke 30 55',
      'say now',
      'run 12000',
      'ask guard',
      'ask sum run',
      'run 50',
    ]);
    const told = between(lines, 'now');
    const [, at] = /^fault (\d+) 0 3$/.exec(events(told).find((text) => text.startsWith('fault')) ?? '') ?? [];
    const found = Number(at);
    expect(found).toBeGreaterThan(1000);
    expect(found).toBeLessThan(2200);
    // Dark, then red and red, then the start row.
    expect(changes(told).map((text) => text.split(' ')[1])).toEqual(['00', '09', '0C']);
    expect(events(told)).toContain(`fault ${found + 10_000} 0 0`);
    expect(answers(told)).toEqual(['ok 1 0 3 01 0 0', sum]);
  });

  it('damaged, that was started and never kept: another kept one takes its place, else the board is dark', async () => {
    const lines = await play([
      'eeprom blank',
      'on',
      'company 1',
      ...upload(image),
      'run 1000',
      'poke 30 55',
      'run 1500',
      'ask snap',
      'ask guard',
    ]);
    expect(answers(lines).slice(-2)).toEqual([expect.stringMatching(/^ok \d+ 0 0 run 80$/), 'ok 0 - 0 02 0 0']);
  });
});
