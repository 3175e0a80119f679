/**
 * Boards joined by a sync wire stay in step although their clocks differ: for a
 * few cycles with the shipped firmware in the emulator (AMBERWICK_SYNC_MINUTES
 * for longer), and for an hour in the reference interpreter.
 */
import { describe, expect, test } from 'vitest';
import { Interpreter } from '../../shared/interpreter/interpreter.ts';
import { compileLayout } from '../../shared/signals/compile.ts';
import type { BoardTable } from '../../shared/table/model.ts';
import type { Edits } from '../layout/small.ts';
import { CYCLES_PER_MS, Rig } from '../timing/rig.ts';
import { esplanade, WIRED } from './two-boards.ts';

/** Lamps and pins of `esplanade`. */
const [GREEN, BEAT, BEAT_PIN, LISTENING_PIN] = [2, 6, 8, 9];

const HOUR = 3_600_000;
const MINUTES = Number(process.env.AMBERWICK_SYNC_MINUTES ?? 1.6);

/** A cycle of 26 s, which two greens of 8 s fill; the follower's are a second shorter. */
const SHORT: Edits = {
  'groups.0.cycle': 26,
  'groups.1.cycle': 26,
  'sites.0.offset': 2,
  'sites.1.offset': 10,
  ...Object.fromEntries(
    [0, 1].flatMap((site) =>
      [0, 1].map((stage) => [`sites.${site}.stages.${stage}.green`, site + stage === 2 ? 7 : 8]),
    ),
  ),
};

function tables(edits: Edits): [BoardTable, BoardTable] {
  const [pier, harbour] = compileLayout(esplanade(edits)).boards;
  if (pier === undefined || harbour === undefined) throw new Error('the boards do not compile');
  return [pier.table, harbour.table];
}

/** By how much longer than `apart` the harbour's greens begin after the pier's, ms; without the first cycle. */
function lateness(pier: readonly number[], harbour: readonly number[], apart: number): number[] {
  return harbour.slice(1).map((time, index) => time - (pier[index + 1] ?? 0) - apart);
}

describe('the shipped firmware on three boards', () => {
  test(
    'followers 0.5 % fast and 0.5 % slow keep to the beat of the pier',
    () => {
      const [leader, follower] = tables({ ...WIRED, ...SHORT });
      const pier = new Rig(leader);
      const harbours = [1.005, 0.995].map((clock) => ({ clock, rig: new Rig(follower) }));
      const beats: { cycles: number; level: 0 | 1 }[] = [];
      const { onPin } = pier.board;
      pier.board.onPin = (pin, level, cycles) => {
        onPin(pin, level, cycles);
        if (pin === BEAT_PIN && level !== 'z') beats.push({ cycles, level });
      };
      for (const { rig } of harbours) rig.board.setInput(LISTENING_PIN, 0);
      for (const rig of [pier, ...harbours.map((it) => it.rig)]) rig.board.power(true);
      for (let ms = 1000; ms <= MINUTES * 60_000; ms += 1000) {
        pier.board.runUntil(ms * CYCLES_PER_MS);
        const said = beats.splice(0);
        for (const { clock, rig } of harbours) {
          // What the pier said reaches them at its own moment of the second.
          for (const { cycles, level } of said) {
            rig.board.runUntil(Math.round(cycles * clock));
            rig.board.setInput(LISTENING_PIN, level);
          }
          rig.board.runUntil(Math.round(ms * CYCLES_PER_MS * clock));
        }
      }
      const greens = (rig: Rig, clock: number): number[] =>
        rig
          .takeEdges()
          .filter(({ lamp, lit }) => lamp === GREEN && lit)
          .map(({ cycles }) => cycles / CYCLES_PER_MS / clock);
      const ahead = greens(pier, 1);
      for (const { clock, rig } of harbours) {
        const late = lateness(ahead, greens(rig, clock), 8000);
        expect(late.length).toBeGreaterThanOrEqual(Math.floor((MINUTES * 60) / 26) - 1);
        // 15 s after the beat its own clock is 75 ms off, and no more a cycle later.
        for (const ms of late) {
          expect(Math.abs(ms)).toBeGreaterThan(65);
          expect(Math.abs(ms)).toBeLessThan(85);
          expect(Math.abs(ms - (late[0] ?? 0))).toBeLessThan(3);
        }
      }
    },
    120_000 + MINUTES * 60_000,
  );
});

/** Greens of a board whose clock runs at `clock`, in the pier's time, for an hour; `beats` as the pier gave them. */
function hour(table: BoardTable, clock: number, beats: readonly { ms: number; lit: boolean }[]) {
  const greens: number[] = [];
  const given: { ms: number; lit: boolean }[] = [];
  let before: readonly boolean[] = [];
  const board = new Interpreter(table, {
    lamps: (ms, lit) => {
      if (lit[GREEN] && !before[GREEN]) greens.push(ms / clock);
      if (lit[BEAT] !== before[BEAT] && lit[BEAT] !== undefined) given.push({ ms, lit: lit[BEAT] });
      before = [...lit];
    },
  });
  board.start();
  for (const { ms, lit } of beats) {
    board.run(Math.round(ms * clock) - board.ran);
    board.setRaw(0, lit);
  }
  board.run(Math.round(HOUR * clock) - board.ran);
  return { greens, given };
}

describe('an hour in the reference interpreter', () => {
  test.each([
    ['fast', 1.005],
    ['slow', 0.995],
  ])('a follower that is 0.5 %% %s keeps to the beat', (_, clock) => {
    const [leader, follower] = tables(WIRED);
    const pier = hour(leader, 1, []);
    expect(pier.given.filter(({ lit }) => lit)).toHaveLength(60);
    const late = lateness(pier.greens, hour(follower, clock, pier.given).greens, 20_000);
    expect(late).toHaveLength(59);
    // 35 s after the beat its own clock is 175 ms off, in the last cycle as in the second.
    for (const ms of late) {
      expect(Math.abs(ms)).toBeGreaterThan(170);
      expect(Math.abs(ms)).toBeLessThan(180);
    }
  });

  test('a slow follower that fills the cycle misses every other beat, as the finding says', () => {
    const [leader, follower] = tables({ ...WIRED, 'sites.1.stages.1.green': 20 });
    const pier = hour(leader, 1, []);
    expect(hour(follower, 0.995, pier.given).greens.length).toBeLessThan(32);
    const { findings } = compileLayout(esplanade({ ...WIRED, 'sites.1.stages.1.green': 20 }));
    expect(findings.map(({ code, path }) => [code, path])).toEqual([['cycle-without-spare', 'sites[1].group']]);
    expect(findings[0]?.cure).toContain('by 1 s');
  });

  test('without the wire it is a third of a cycle off at the end', () => {
    const [leader, follower] = tables({});
    const late = lateness(hour(leader, 1, []).greens, hour(follower, 1.005, []).greens, 20_000);
    expect(late.at(-1)).toBeLessThan(-17_000);
    expect(late.at(-1)).toBeGreaterThan(-19_000);
  });
});
