/** Two traces of one story, edge by edge. */
import type { BoardTable } from '../../shared/table/model.ts';
import { CYCLES_PER_MS } from '../timing/rig.ts';
import { type OutputEdge, outputEdges } from './outputs.ts';
import type { Story } from './story.ts';
import type { Trace } from './trace.ts';

/** Edges this long after the first one of a started table are still those of the start. */
const START_CYCLES = 25 * CYCLES_PER_MS;
/** The first tick comes a step of timer 0 less one cycle later under libsimavr. */
const PRESCALER = 63;
/** An interrupt is entered in 2 cycles in one emulator and in none in the other. */
const INTERRUPT = 2;

export interface Compared {
  /** The first thing that is in one trace only or otherwise, in words; null when nothing is. */
  readonly wrong: string | null;
  /** Lamp edges, without those that the start of a table shows. */
  readonly edges: number;
  /** Of these, how many are apart by the constant of their start, give or take 2 cycles. */
  readonly exact: number;
  /** How much the others are apart from that at most, cycles. */
  readonly worst: number;
  /** The same of the edges that the start of a table shows. */
  readonly worstAtStart: number;
  /** Whole ms by which a table started later, for each power-on and reset. */
  readonly slips: readonly number[];
}

export function compare(table: BoardTable, story: Story, avr8js: Trace, simavr: Trace): Compared {
  const [one, other] = [outputEdges(table, avr8js.pins), outputEdges(table, simavr.pins)];
  const wrong =
    firstWrong(one, other) ??
    firstWrongText(avr8js.text, simavr.text) ??
    (avr8js.eeprom === simavr.eeprom ? null : 'the EEPROMs differ');
  const lamps = new Set(table.lamps.map(({ output }) => output));
  const moments = one.flatMap(({ cycles, output, level }, at) =>
    lamps.has(output) && level !== 'z' ? [{ cycles, later: (other[at]?.cycles ?? Number.NaN) - cycles }] : [],
  );
  const starts = story.starts.map((mark) => moments.find(({ cycles }) => cycles > mark)?.cycles ?? mark);
  const isAtStart = (cycles: number) => starts.some((start) => cycles >= start && cycles < start + START_CYCLES);
  let [edges, exact, worst, worstAtStart] = [0, 0, 0, 0];
  const slips: number[] = [];
  for (const [at, from] of story.switched.entries()) {
    const until = story.switched[at + 1] ?? Number.POSITIVE_INFINITY;
    const since = moments.filter(({ cycles }) => cycles > from && cycles < until);
    if (since.length === 0) continue;
    const most = mostOften(since.filter(({ cycles }) => !isAtStart(cycles)).map(({ later }) => later));
    const slip = Math.round((most - PRESCALER) / CYCLES_PER_MS);
    slips.push(slip);
    for (const { cycles, later } of since) {
      const apart = Math.abs(later - PRESCALER - slip * CYCLES_PER_MS);
      if (isAtStart(cycles)) {
        worstAtStart = Math.max(worstAtStart, apart);
        continue;
      }
      edges += 1;
      if (apart <= INTERRUPT) exact += 1;
      worst = Math.max(worst, apart);
    }
  }
  return { wrong, edges, exact, worst, worstAtStart, slips };
}

function mostOften(values: readonly number[]): number {
  const counts = new Map<number, number>();
  for (const value of values) counts.set(value, (counts.get(value) ?? 0) + 1);
  return [...counts].reduce((best, entry) => (entry[1] > best[1] ? entry : best), [0, 0])[0];
}

function firstWrong(a: readonly OutputEdge[], b: readonly OutputEdge[]): string | null {
  const words = (edge: OutputEdge | undefined) => (edge ? `output ${edge.output} to ${edge.level}` : 'nothing');
  for (let at = 0; at < Math.max(a.length, b.length); at++) {
    const [one, other] = [a[at], b[at]];
    if (words(one) === words(other)) continue;
    return `edge ${at}: avr8js has ${words(one)} at ${one?.cycles}, libsimavr ${words(other)} at ${other?.cycles}`;
  }
  return null;
}

function firstWrongText(a: string, b: string): string | null {
  const [one, other] = [a.split('\n'), b.split('\n')];
  for (let at = 0; at < Math.max(one.length, other.length); at++) {
    if (one[at] !== other[at]) return `line ${at}: avr8js has "${one[at]}", libsimavr "${other[at]}"`;
  }
  return null;
}
