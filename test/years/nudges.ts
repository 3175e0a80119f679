/** What people and trains do to the town in one hour, by a seed: nudges of dials and the cycle, levels at inputs. */
import type { BoardTable } from '../../shared/table/model.ts';
import { chance, type Dice, pick, seededDice, times } from '../fixtures/dice.ts';
import type { ScriptAct } from '../fixtures/random-script.ts';
import { BRANCH, PAPER_SITES } from './town.ts';

export const HOUR_MS = 3_600_000;
const NUDGES = 40;
const LEVELS = 120;

/** An act `at` ms into the hour. */
export interface Timed {
  readonly at: number;
  readonly act: ScriptAct;
}

/** In order of time. `hasTrain`: the one train on the branch line comes in this hour. */
export function hourOf(table: BoardTable, seed: number, hour: number, hasTrain: boolean): Timed[] {
  const dice = seededDice(Math.imul(seed, 7919) + hour);
  const at = () => dice.int(0, HOUR_MS - 1);
  const acts = [
    ...times(NUDGES, () => ({ at: at(), act: nudge(dice, table) })),
    ...times(LEVELS, () => ({ at: at(), act: level(dice, table) })),
  ];
  if (hasTrain) {
    const when = dice.int(0, HOUR_MS - 60_000);
    const input = BRANCH(table);
    acts.push({ at: when, act: { act: 'raw', input, active: true } });
    acts.push({ at: when + 500, act: { act: 'raw', input, active: false } });
  }
  return acts.sort((a, b) => a.at - b.at);
}

function nudge(dice: Dice, table: BoardTable): ScriptAct {
  if (table.groups.length > 0 && chance(dice, 10)) return { act: 'cycle', group: 0, ms: 1000 * dice.int(30, 90) };
  const site = dice.int(PAPER_SITES, table.sites.length - 1);
  const dials = table.programs[table.sites[site]?.program ?? 0]?.dials ?? [];
  const dial = dice.int(0, dials.length - 1);
  const { min, max } = dials[dial] ?? { min: 0, max: 0 };
  // Now and then a value that the board must refuse.
  const ms = chance(dice, 5) ? max + dice.int(1, 1000) : dice.int(min, Math.min(max, min + 20_000));
  return { act: 'dial', site, dial, ms };
}

function level(dice: Dice, table: BoardTable): ScriptAct {
  const inputs = times(BRANCH(table), (input) => input);
  return { act: 'raw', input: pick(dice, inputs), active: chance(dice, 40) };
}
