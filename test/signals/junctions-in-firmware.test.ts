/** Random junctions, compiled from files, tell the same story in the firmware and in the reference interpreter. */
import { describe, expect, it } from 'vitest';
import type { BoardEdge } from '../../electron/host/virtual/comparison.ts';
import { loadImage } from '../../electron/host/virtual/images.ts';
import { rehearse } from '../../electron/host/virtual/rehearsal.ts';
import { encodeTable } from '../../shared/table/encode.ts';
import type { BoardTable } from '../../shared/table/model.ts';
import { buildHostCore } from '../firmware/host/build.ts';
import { type Dice, pick, seededDice, times } from '../fixtures/dice.ts';
import { randomScript, type ScriptStep } from '../fixtures/random-script.ts';
import { type Case, commands, printed, reference } from '../interpreter/both.ts';
import { runCore } from '../interpreter/core-process.ts';
import { anySite } from './any-site.ts';
import { compiled, layoutOf, tableOf } from './junctions.ts';

const SEED = Number(process.env.AMBERWICK_SEED ?? 1);
const JUNCTIONS = Number(process.env.AMBERWICK_RUNS ?? 60);

/** What a random script does, but seconds apart: a junction needs minutes to go round. */
function slowScript(dice: Dice, table: BoardTable): ScriptStep[] {
  const script = times(3, () => randomScript(dice, table)).flat();
  return script.map((step) => ({ ...step, wait: step.wait + dice.int(0, 9000) }));
}

function cases(): Case[] {
  return times(JUNCTIONS, (index) => SEED + index).flatMap((seed) => {
    const { board } = compiled(anySite(seededDice(seed)).layout);
    if (board === null) return [];
    const start = pick(seededDice(seed), [0, 12_345, 2 ** 32 - 30_000]);
    return [{ seed, table: board.table, script: slowScript(seededDice(seed), board.table), start }];
  });
}

describe('the core of the firmware, built for this machine', () => {
  it('runs random junctions as the reference interpreter does, under presses, nudges, holds and steps', async () => {
    const made = cases();
    const stories = runCore(await buildHostCore({ chip: 'atmega2560' }), made.map(commands));
    let events = 0;
    for (const one of made) {
      const { value } = await stories.next();
      const expected = reference(one);
      events += expected.length;
      expect(printed(value ?? []), `seed ${one.seed}`).toEqual(expected);
    }
    await stories.return(undefined);
    expect(made.length).toBeGreaterThan(JUNCTIONS / 3);
    expect(events / made.length).toBeGreaterThan(40);
  }, 600_000);
});

describe('the image that ships', () => {
  it('runs a junction with skipped, extended and pedestrian stages, everybody asking all the time', async () => {
    const stage = (id: string, phases: string[], green: number, more: object = {}) => ({ id, phases, green, ...more });
    const layout = layoutOf(
      {
        A: { demand: ['a'] },
        B: { demand: ['b'] },
        F: { lamps: 'G', demand: ['f'] },
        P: { lamps: 'RG', kind: 'pedestrian', demand: ['button'] },
      },
      {
        stages: [
          stage('1', ['A'], 7, { skip: true, extend: { maximum: 12 } }),
          stage('2', ['B'], 8, { skip: true }),
          stage('3', ['B', 'F'], 7, { skip: true }),
          stage('4', ['P'], 6, { skip: true }),
        ],
        rest: '1',
      },
    );
    // Nothing is wired in a rehearsal: an input without pull-up that counts low as pressed is pressed for ever.
    for (const input of layout.inputs) input.pullUp = false;
    const table = tableOf(layout);
    const image = encodeTable(table).bytes;
    const loaded = loadImage('atmega2560');
    if (!loaded.ok || image === null) throw new Error('no image');
    const lit = new Set<number>();
    const onEdge = (edge: BoardEdge): unknown => edge.lit && lit.add(edge.lamp);
    const result = await rehearse({ flash: loaded.flash, table, image, ms: 75_000, onEdge });
    if (!result.ok) throw new Error(JSON.stringify(result.error));
    expect(result.rehearsal).toMatchObject({ wrong: 0, firstWrong: null, conflicts: 0 });
    // Every stage has come: each of the nine lamps was lit, the arrow and the green figure, too.
    expect([...lit].sort((x, y) => x - y)).toEqual(table.lamps.map((_, index) => index));
    expect(result.rehearsal.worst).toBeLessThan(1000);
  }, 120_000);
});
