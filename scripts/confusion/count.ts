/** Counts verdicts: what was wrong at an output against what the self-check said of it. */
import type { Load, WiringFault } from '../../shared/electrics/model.ts';
import { judge } from '../../shared/lampcheck/self-check/judge.ts';
import { isAnalogue } from '../../shared/lampcheck/self-check/probed.ts';
import type { Verdict, VerdictKind } from '../../shared/lampcheck/self-check/verdict.ts';
import type { PinReading } from '../../shared/link/requests.ts';
import type { Bench } from './benches.ts';
import { drawFrom, randomBench } from './benches.ts';
import { CORNERS, extremeConditions, randomFault, singleFaults } from './cases.ts';
import { EmulatedBoard } from './emulated.ts';
import { type Conditions, PaperBoard } from './paper.ts';
import { lieOf, type Truth, truthAt } from './truth.ts';

/** Something that probes: the shipped firmware in the emulator, or the network on paper. */
export interface Engine {
  wire(faults: readonly WiringFault[], conditions: Conditions): void;
  /** Null: refused. */
  probe(load: Load): PinReading | null;
}

export type EngineMaker = (bench: Bench) => Engine;

export const onPaper: EngineMaker = ({ loads }) => {
  let board = new PaperBoard(loads, [], { parts: {}, undefinedZone: 'low', adcError: 0 });
  return {
    wire: (faults, conditions) => {
      board = new PaperBoard(loads, faults, conditions);
    },
    probe: (load) => board.probe(load),
  };
};

export const onTheChip: EngineMaker = (bench) => {
  const board = new EmulatedBoard(bench);
  return {
    wire: (faults, conditions) => board.wire(bench.loads, faults, conditions),
    probe: ({ output, activeLow }) => board.probe(output, activeLow),
  };
};

const NOTHING: PinReading = { level: null, rest: null, lit: null };

export interface Found {
  readonly load: Load;
  /** All of the board. */
  readonly loads: readonly Load[];
  readonly faults: readonly WiringFault[];
  readonly verdict: Verdict;
  readonly truth: Truth;
  /** What the verdict says that is not so; null: nothing. */
  readonly lie: string | null;
}

export function examine(engine: Engine, load: Load, loads: readonly Load[], faults: readonly WiringFault[]): Found {
  const verdict = judge(load, engine.probe(load) ?? NOTHING, loads);
  const truth = truthAt(load, loads, faults);
  return { load, loads, faults, verdict, truth, lie: lieOf(verdict, truth) };
}

/** Every single fault of a bench, and none, at the outputs that it touches, under each of the conditions. */
export function* singles(
  make: EngineMaker,
  bench: Bench,
  conditions: readonly Conditions[] = CORNERS,
  pick: (index: number) => boolean = () => true,
): Generator<Found> {
  const { loads } = bench;
  const engine = make(bench);
  for (const condition of conditions) {
    engine.wire([], condition);
    for (const load of loads) yield examine(engine, load, loads, []);
    for (const [index, fault] of singleFaults(loads).entries()) {
      if (!pick(index)) continue;
      engine.wire([fault], condition);
      for (const load of loads) {
        if (load.lamp === fault.lamp || ('with' in fault && load.lamp === fault.with)) {
          yield examine(engine, load, loads, [fault]);
        }
      }
    }
  }
}

/** Two random faults at once on random boards, everything at the ends of its data sheet; all outputs are probed. */
export function* doubles(make: EngineMaker, count: number, seed: number): Generator<Found> {
  for (let index = 0; index < count; index++) {
    const draw = drawFrom(seed + index);
    const bench = randomBench(draw, index % 2 === 0);
    const { loads } = bench;
    const faults = [randomFault(loads, draw), randomFault(loads, draw)];
    const conditions = extremeConditions(draw);
    const engine = make(bench);
    engine.wire(faults, conditions);
    for (const load of loads) yield examine(engine, load, loads, faults);
  }
}

export const COLUMNS: readonly VerdictKind[] = [
  'lamp',
  'notShorted',
  'conducts',
  'open',
  'short',
  'noResistor',
  'cantTell',
];

/** Rows in the order in which they came first, each with a count for each column. */
export function tally(found: Iterable<Found>, rowOf: (found: Found) => string): Map<string, number[]> {
  const rows = new Map<string, number[]>();
  for (const one of found) {
    const row = rowOf(one);
    const counts = rows.get(row) ?? COLUMNS.map(() => 0);
    rows.set(row, counts);
    const column = COLUMNS.indexOf(one.verdict.kind);
    counts[column] = (counts[column] ?? 0) + 1;
  }
  return rows;
}

const FAULT_NAMES: Readonly<Record<WiringFault['kind'], string>> = {
  open: 'open',
  short: 'short to the common wire',
  reversed: 'the wrong way round',
  noResistor: 'resistor missing',
  dim: 'ten times the resistor',
  swapped: 'exchanged with another',
  bridged: 'touching another',
};

/** Fault and kind of pin. */
export function byFault({ load, faults: [fault] }: Found): string {
  const pin = isAnalogue(load) ? 'analogue' : 'digital';
  if (!fault) return `none | ${pin}`;
  const one = 'head' in fault && fault.head !== undefined ? ', one of two heads' : '';
  return `${FAULT_NAMES[fault.kind]}${one} | ${pin}`;
}

/** What is really at the output. */
export function byTruth({ truth }: Found): string {
  if (truth.short) return 'a short or a touch';
  if (!truth.conducts) return 'nothing that conducts';
  return truth.noResistor ? 'a lamp without its resistor' : 'a lamp as planned, or another one';
}
