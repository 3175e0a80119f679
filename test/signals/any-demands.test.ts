/** Random junctions with random demands, run by the reference interpreter and judged by their file alone. */
import { describe, expect, it } from 'vitest';
import { UK_TODAY } from '../../shared/practice/uk.ts';
import { conflictingIntervals } from '../../shared/signals/conflicts.ts';
import { interstage } from '../../shared/signals/intervals.ts';
import { changesOf } from '../../shared/signals/junction/order.ts';
import { intervalsOf, sectionsOf } from '../../shared/signals/junction/sections.ts';
import { resolveJunction } from '../../shared/signals/resolve.ts';
import { checkTable } from '../../shared/table/check.ts';
import type { BoardTable } from '../../shared/table/model.ts';
import { type Dice, pick, seededDice, times } from '../fixtures/dice.ts';
import type { Act } from '../fixtures/film.ts';
import type { Loose } from '../layout/small.ts';
import { type AnySite, anySite } from './any-site.ts';
import { judge, type Verdict } from './judge.ts';
import { compiled } from './junctions.ts';

const SEED = Number(process.env.AMBERWICK_SEED ?? 1);
const JUNCTIONS = Number(process.env.AMBERWICK_RUNS ?? 150);
const RUN_MS = 900_000;

interface Made {
  readonly seed: number;
  readonly site: AnySite;
  readonly table: BoardTable;
}

/** Junctions that compile; the compiler has to refuse some, whose greens are too short. */
function goodJunctions(): Made[] {
  return times(JUNCTIONS, (index) => SEED + index).flatMap((seed) => {
    const site = anySite(seededDice(seed));
    const { board } = compiled(site.layout);
    return board === null ? [] : [{ seed, site, table: board.table }];
  });
}

/** Buttons pressed and vehicles over detectors, until half the time is over; then nobody comes any more. */
function traffic(dice: Dice, table: BoardTable): Act[] {
  if (table.inputs.length === 0) return [];
  const acts = times(dice.int(2, 60), () => {
    const input = dice.int(0, table.inputs.length - 1);
    const from = dice.int(0, RUN_MS / 2);
    const to = from + pick(dice, [100, 100, 2000, 40_000]);
    return [
      [from, (board) => board.setRaw(input, true)],
      [to, (board) => board.setRaw(input, false)],
    ] as Act[];
  }).flat();
  return acts.sort(([a], [b]) => a - b);
}

/** Dials turned to anywhere within their limits, at any moment. */
function nudges(dice: Dice, table: BoardTable): Act[] {
  const dials = table.programs[0]?.dials ?? [];
  const acts = times(dice.int(5, 40), (): Act => {
    const dial = dice.int(0, dials.length - 1);
    const limits = dials[dial] ?? { min: 0, max: 0 };
    const ms = 10 * dice.int(Math.ceil(limits.min / 10), Math.floor(Math.min(limits.max, limits.min + 4000) / 10));
    return [dice.int(0, RUN_MS), (board) => board.setDial(0, dial, ms)];
  });
  return acts.sort(([a], [b]) => a - b);
}

/** When each phase that gains right of way may start, ms after the end of the stage: read from the file. */
function startsOf(junction: Loose, from: number, to: number): Map<string, number> {
  const [before, after] = [junction.stages[from], junction.stages[to]];
  const delay = (id: string, key: 'start' | 'end'): number => {
    const [it] = junction.delays;
    return it?.phase === id && (it.from ?? before.id) === before.id ? 1000 * (it[key] ?? 0) : 0;
  };
  const leaving: string[] = before.phases.filter((id: string) => !after.phases.includes(id));
  const gaining: string[] = after.phases.filter((id: string) => !before.phases.includes(id));
  return new Map(
    gaining.map((id) => {
      const { lamps } = junction.phases.find((it: Loose) => it.id === id);
      const bound = leaving.map((other) => {
        const seconds = junction.intergreens[other]?.[id];
        return seconds === undefined ? 0 : delay(other, 'end') + 1000 * seconds;
      });
      return [id, Math.max(lamps.amber ? 2000 : 0, ...bound) + delay(id, 'start')];
    }),
  );
}

function merged(...lists: Act[][]): Act[] {
  return lists.flat().sort(([a], [b]) => a - b);
}

function sum(verdicts: readonly Verdict[], key: 'greens' | 'exact' | 'served'): number {
  return verdicts.reduce((total, it) => total + it[key], 0);
}

describe('any junction with demands', () => {
  const good = goodJunctions();

  it('is a consistent table', () => {
    expect(good.length).toBeGreaterThan(JUNCTIONS / 3);
    for (const { table, seed } of good) expect(checkTable(table), `seed ${seed}`).toEqual([]);
  });

  it('gives green in every change exactly when the binding intergreen is over', () => {
    let changes = 0;
    for (const { seed, site } of good) {
      const junction: Loose = site.layout.sites[0];
      const { plan } = resolveJunction(junction, 'sites[0]', UK_TODAY);
      if (plan !== null) expect(conflictingIntervals(plan, intervalsOf(sectionsOf(plan))), `seed ${seed}`).toEqual([]);
      for (const { from, to } of changesOf(plan ?? { phases: [], stages: [], intergreens: [] })) {
        const expected = startsOf(junction, from, to);
        const intervals = plan === null ? [] : interstage(plan, from, to);
        for (const [id, ms] of expected) {
          const phase = junction.phases.findIndex((it: Loose) => it.id === id);
          const first = intervals.findIndex((it) => it.aspects[phase] === 'green');
          const before = first < 0 ? intervals : intervals.slice(0, first);
          expect(
            before.reduce((total, it) => total + it.ms, 0),
            `seed ${seed}, ${from} to ${to}, ${id}`,
          ).toBe(ms);
        }
        changes += 1;
      }
    }
    expect(changes).toBeGreaterThan(2 * good.length);
  });

  it('never breaks an intergreen or a minimum, and serves every demand', () => {
    const verdicts = good.map(({ seed, site, table }) => {
      const verdict = judge(site, table, RUN_MS, traffic(seededDice(seed), table));
      expect(verdict.breaches, `seed ${seed}`).toEqual([]);
      return verdict;
    });
    expect(sum(verdicts, 'greens')).toBeGreaterThan(20 * good.length);
    expect(sum(verdicts, 'served')).toBeGreaterThan(2 * good.length);
    expect(sum(verdicts, 'exact')).toBeGreaterThan(sum(verdicts, 'greens') / 3);
  });

  it('keeps them while every dial is turned about, down to its least', () => {
    for (const { seed, site, table } of good) {
      const dice = seededDice(seed);
      const acts = merged(traffic(dice, table), nudges(dice, table));
      // Longer dials make longer rounds: demands are looked at above.
      const verdict = judge({ ...site, round: RUN_MS }, table, RUN_MS, acts);
      expect(verdict.breaches, `seed ${seed}`).toEqual([]);
    }
  });

  it('keeps them with every dial at its least from the start', () => {
    for (const { seed, site, table } of good) {
      const dials = table.programs[0]?.dials.map((dial) => dial.min) ?? [];
      const least = { ...table, sites: table.sites.map((it) => ({ ...it, dials })) };
      const verdict = judge(site, least, RUN_MS, traffic(seededDice(seed), table));
      expect(verdict.breaches, `seed ${seed}`).toEqual([]);
    }
  });
});
