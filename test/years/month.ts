/** The town for many hours, on the core and in the reference interpreter, compared hour by hour. */
import { setTimeout as pause } from 'node:timers/promises';
import { Interpreter } from '../../shared/interpreter/interpreter.ts';
import { FAULTS } from '../../shared/link/vocabulary.ts';
import { encodeTable } from '../../shared/table/encode.ts';
import type { Chip } from '../../shared/table/format.ts';
import type { BoardTable } from '../../shared/table/model.ts';
import { buildStore } from '../../shared/table/store.ts';
import { perform, type ScriptAct } from '../fixtures/random-script.ts';
import { Core } from './core.ts';
import { HOUR_MS, hourOf, type Timed } from './nudges.ts';
import { townOnPaper } from './paper.ts';
import { Sum } from './sum.ts';
import { town } from './town.ts';

export interface MonthOptions {
  readonly chip: Chip;
  readonly hours: number;
  readonly seed: number;
  /** Board time at the start, ms. */
  readonly start: number;
  /** The hour in which a train comes on the branch line. */
  readonly trainHour: number;
  /** An hour told event by event, by both; for looking into a difference. */
  readonly tell?: number;
  /** Does something to the commands of the core that the reference does not know of: to see that it is found. */
  readonly spoil?: (commands: string[]) => string[];
  readonly onHour?: (done: number) => void;
}

export interface Month {
  readonly edges: number;
  readonly rows: number;
  readonly nudges: number;
  readonly refused: number;
  /** Edges that paper has as well. */
  readonly onPaper: number;
  /** Intervals of the branch line's gate. */
  readonly gateRows: number;
  /** The first thing that differed, with its hour; null when nothing did. */
  readonly wrong: string | null;
  /** The told hour, by the core and by the reference. */
  readonly told: readonly [string[], string[]];
}

export async function runMonth(options: MonthOptions): Promise<Month> {
  const table = town(options.chip);
  const reference = new Reference(table);
  const core = new Core(options.chip);
  const told: [string[], string[]] = [[], reference.told];
  let [edges, rows, nudges, refused] = [0, 0, 0, 0];
  let wrong: string | null = null;
  try {
    const spoil = options.spoil ?? ((lines: string[]) => lines);
    core.send(spoil(powerOn(table, options.start)));
    reference.start(options.start);
    for (let hour = 0; hour < options.hours && wrong === null; hour++) {
      const acts = hourOf(table, options.seed, hour, hour === options.trainHour);
      const isTold = hour === options.tell;
      core.send([...(isTold ? ['tell 1'] : []), ...spoil(commands(table, acts)), ...(isTold ? ['tell 0'] : []), 'sum']);
      reference.telling = isTold;
      const expected = reference.hour(acts);
      const printed = await core.upToSum();
      if (isTold) told[0] = printed;
      const got = printed.filter((line) => !/^[trf] /.test(line)).map(withoutMarks);
      wrong = difference(got, expected, hour) ?? reference.wrong;
      const [, , , someEdges, someRows] = (printed.at(-1) ?? '').split(' ').map(Number);
      edges += someEdges ?? 0;
      rows += someRows ?? 0;
      nudges += expected.length - 2;
      refused += expected.filter((line) => line.startsWith('> no')).length;
      options.onHour?.(hour + 1);
      await pause(0);
    }
  } finally {
    core.close();
  }
  wrong ??= reference.missing(options.hours * HOUR_MS);
  const { onPaper, gateRows } = reference;
  return { edges, rows, nudges, refused, onPaper, gateRows, wrong, told };
}

/** No fault, no deed, no restart. */
const GUARD_SAW_NOTHING = '> ok 0 - 0 00 0 0';

/** The reference interpreter with its sum, held against paper where there is one. */
class Reference {
  telling = false;
  readonly told: string[] = [];
  onPaper = 0;
  gateRows = 0;
  wrong: string | null = null;
  private readonly paper = townOnPaper();
  private readonly sum = new Sum();
  private readonly lit: boolean[];
  private readonly board: Interpreter;

  constructor(table: BoardTable) {
    this.lit = table.lamps.map(() => false);
    const gate = table.sites.length - 1;
    this.board = new Interpreter(table, {
      lamps: (ms, lit) => this.lamps(ms, lit),
      row: (ms, site, row) => {
        this.sum.row(ms, site, row);
        if (site === gate) this.gateRows += 1;
        if (this.telling) this.told.push(`r ${ms} ${site} ${row}`);
      },
      fault: (ms, site, fault) => {
        this.sum.fault(ms, site, FAULTS.find(({ key }) => key === fault)?.code ?? 0);
        this.wrong ??= `a fault at site ${site}`;
      },
    });
  }

  start(now: number): void {
    this.board.start(now);
  }

  hour(acts: readonly Timed[]): string[] {
    const answers: string[] = [];
    let done = 0;
    for (const { at, act } of acts) {
      this.board.run(at - done);
      done = at;
      const value = perform(this.board, act);
      if (act.act !== 'raw') answers.push(value === null ? '> no 4' : `> ok ${value}`);
    }
    this.board.run(HOUR_MS - done);
    return [...answers, GUARD_SAW_NOTHING, this.sum.take(this.board.now)];
  }

  /** What paper has before a time that never came, or null. */
  missing(ms: number): string | null {
    const late = this.paper.find(({ dueAt }) => dueAt <= ms);
    return late ? `the edge due at ${late.dueAt} ms never came` : null;
  }

  private lamps(ms: number, lit: readonly boolean[]): void {
    for (let lamp = 0; lamp < lit.length; lamp++) {
      const isLit = lit[lamp] === true;
      if (isLit === this.lit[lamp]) continue;
      this.lit[lamp] = isLit;
      this.sum.edge(ms, lamp, isLit);
      if (this.telling) this.told.push(`t ${ms} ${lamp} ${Number(isLit)}`);
      const paper = this.paper[lamp];
      if (!paper) continue;
      this.onPaper += 1;
      if (!paper.isDue(this.board.ran, lamp, isLit))
        this.wrong ??= `lamp ${lamp} at ${this.board.ran} ms is not on paper`;
    }
  }
}

function powerOn(table: BoardTable, start: number): string[] {
  const { bytes } = encodeTable(table);
  if (!bytes) throw new Error('the town does not fit its board');
  const store = buildStore(table.chip, { slots: [{ sequence: 1, image: bytes }, null] });
  const pairs = conflictPairs(table);
  return [
    `eeprom ${Buffer.from(store).toString('hex')}`,
    ...table.inputs.map(({ pin, activeLow }) => `pin ${pin} ${Number(activeLow)}`),
    `pairs ${pairs.flat().join(' ')}`,
    `on ${start}`,
  ];
}

/** Pairs of board lamps. */
export function conflictPairs(table: BoardTable): [number, number][] {
  let first = 0;
  return table.sites.flatMap((site) => {
    const program = table.programs[site.program];
    const from = first;
    first += program?.lamps.length ?? 0;
    return (program?.conflicts ?? []).map(([a, b]): [number, number] => [from + a, from + b]);
  });
}

function commands(table: BoardTable, acts: readonly Timed[]): string[] {
  let done = 0;
  const lines = acts.flatMap(({ at, act }) => {
    const wait = at - done;
    done = at;
    return [...(wait > 0 ? [`run ${wait}`] : []), command(table, act)];
  });
  return [...lines, `run ${HOUR_MS - done}`, 'ask guard'];
}

function command(table: BoardTable, act: ScriptAct): string {
  if (act.act === 'dial') return `ask dial ${act.site} ${act.dial} ${act.ms}`;
  if (act.act === 'cycle') return `ask dial ${128 + act.group} 0 ${act.ms}`;
  if (act.act !== 'raw') throw new Error(`no command for ${act.act}`);
  const input = table.inputs[act.input];
  return `pin ${input?.pin} ${Number(act.active !== input?.activeLow)}`;
}

/** An answer without its number and CRC; of a refusal the code only. */
function withoutMarks(line: string): string {
  const [mark, , outcome, ...fields] = line.split(' ');
  if (mark !== '>') return line;
  return ['>', outcome, ...fields.slice(0, outcome === 'ok' ? -1 : 1)].join(' ');
}

function difference(got: readonly string[], expected: readonly string[], hour: number): string | null {
  const length = Math.max(got.length, expected.length);
  for (let at = 0; at < length; at++) {
    if (got[at] !== expected[at]) return `hour ${hour}: the core says "${got[at]}", the reference "${expected[at]}"`;
  }
  return null;
}
