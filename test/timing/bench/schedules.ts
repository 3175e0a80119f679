/** The example's lamp edges against paper: the firmware's, the usual program's, the host-driven board's. */
import type { BoardTable } from '../../../shared/table/model.ts';
import { seededDice } from '../../fixtures/dice.ts';
import { type Baseline, buildBaseline, powered } from '../baseline/build.ts';
import { measure } from '../measure.ts';
import { PENMARROW } from '../penmarrow.ts';
import { CYCLES_PER_MS, type Edge, Rig } from '../rig.ts';
import { CycleMeter, roundTimes } from './cycles.ts';
import { errorsOf, worstOf } from './edge-errors.ts';
import { hostDriven } from './host-driven.ts';
import type { Results } from './results.ts';
import { type Lateness, measureTimers, quantile, UNDER_LOAD } from './timers.ts';

/** Whichever is measured, these are said of it. */
function noteEdges(results: Results, key: string, what: string, edges: readonly Edge[]): void {
  const sites = errorsOf(edges, PENMARROW);
  const worst = worstOf(sites);
  if (worst.wrong) throw new Error(`${what}: ${worst.wrong}`);
  results.note(`edge-${key}`, `${what}: worst edge of the run against paper`, worst.worstMs, 'ms');
  results.note(`interval-${key}`, `${what}: worst time between two edges of a lamp`, worst.intervalMs, 'ms');
  for (const [name, site] of [
    ['cross', sites[0]],
    ['beacons', sites[2]],
  ] as const) {
    if (!site) continue;
    results.note(`drift-${name}-${key}`, `${what}: drift of the ${name}`, site.driftMsPerDay, 'ms a day');
    results.note(`drift-${name}-${key}-±`, '  its standard error', site.driftUncertainty, 'ms a day');
  }
}

/** The shipped firmware with the example. */
export function firmwareEdges(results: Results, table: BoardTable, minutes: number): void {
  const rig = new Rig(table);
  rig.board.power(true);
  const began = performance.now();
  rig.runMs(60_000 * minutes);
  const took = performance.now() - began;
  const edges = rig.takeEdges();
  const result = measure(edges, PENMARROW, edges[0]?.cycles ?? 0);
  if (result.wrong) throw new Error(result.wrong);
  results.clock('emulator', 'emulator, the example as fast as it goes', (60_000 * minutes) / took, 'times real');
  results.note('edges-apart', 'lamp edges of one interval, greatest distance', result.apartMicroseconds, 'µs');
  noteEdges(results, 'ours', 'firmware', edges);
}

/** The program of the usual kind: its edges, and what it takes. */
export function usualEdges(results: Results, name: Baseline, table: BoardTable, minutes: number): void {
  const program = buildBaseline(name);
  const { board, edges } = powered(program, table);
  board.run(60_000 * minutes * CYCLES_PER_MS);
  noteEdges(results, name, `program "${name}"`, edges);
  const meter = new CycleMeter(board);
  meter.run(1000 * CYCLES_PER_MS);
  const use = meter.result();
  results.note(`interrupts-${name}`, `program "${name}": interrupts`, 100 * use.interruptShare, '% of all cycles');
  results.note(`awake-${name}`, `program "${name}": awake`, 100 * use.awakeShare, '% of all cycles');
  // A cycle of the slower junction takes 44 s: each transition is among them.
  const rounds = roundTimes(board, program.addresses.get('loop') ?? 0, 45_000);
  results.note(`loop-${name}`, `program "${name}": one time round, mean`, rounds.meanMicroseconds, 'µs');
  results.note(`loop-worst-${name}`, `program "${name}": one time round, worst`, rounds.worstMicroseconds, 'µs');
  results.note(`flash-${name}`, `program "${name}": flash`, program.flashBytes, 'bytes');
  results.note(`ram-${name}`, `program "${name}": static RAM`, program.ramBytes, 'bytes');
  results.note(`stack-${name}`, `program "${name}": stack`, use.stackBytes, 'bytes');
}

/** Timers that count whole milliseconds, on a computer that has nothing else to do: late by 0 to 1 ms. A model. */
const AT_BEST: Lateness = { late: Array.from({ length: 1000 }, (_, at) => at / 1000), busyThreads: 0, load: 0 };

/** The board that the computer switches: with timers at their best, as late as they are here, and with all cores busy. */
export async function hostEdges(results: Results, table: BoardTable, minutes: number, seconds: number): Promise<void> {
  const program = buildBaseline('driven');
  for (const [key, what, threads] of [
    ['host-best', 'host at its best', null],
    ['host-now', 'host as it is', 0],
    ['host-busy', `host with ${UNDER_LOAD} busy threads`, UNDER_LOAD],
  ] as const) {
    const lateness = threads === null ? AT_BEST : await measureTimers(seconds, threads);
    if (threads !== null) noteTimers(results, key, what, lateness);
    for (const byDeadline of [false, true]) {
      const name = byDeadline ? `${key}-deadline` : key;
      const dice = seededDice(7);
      const edges = hostDriven(program, table, PENMARROW, dice, { lateness, byDeadline, ms: 60_000 * minutes });
      noteEdges(results, name, byDeadline ? `${what}, by deadlines` : what, edges);
    }
  }
  results.note('flash-host', 'host: flash of its board', program.flashBytes, 'bytes');
  results.note('ram-host', 'host: static RAM of its board', program.ramBytes, 'bytes');
}

function noteTimers(results: Results, key: string, what: string, lateness: Lateness): void {
  results.clock(`timers-${key}`, `${what}: timers fired`, lateness.late.length, 'times');
  results.clock(`timers-load-${key}`, `${what}: load of the computer`, lateness.load, 'of one minute');
  for (const [name, share] of [
    ['median', 0.5],
    ['99 %', 0.99],
    ['worst', 1],
  ] as const) {
    results.clock(`timers-${name}-${key}`, `${what}: timers late, ${name}`, quantile(lateness, share), 'ms');
  }
}
