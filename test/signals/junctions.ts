/** Junctions of a layout for tests: lamps on a chain, one input for each id that is named. */
import { Interpreter } from '../../shared/interpreter/interpreter.ts';
import { readLayout } from '../../shared/layout/parse.ts';
import { type CompiledBoard, compileLayout } from '../../shared/signals/compile.ts';
import type { BoardTable, LampState } from '../../shared/table/model.ts';
import type { Act } from '../fixtures/film.ts';
import type { Loose } from '../layout/small.ts';

export interface PhaseWords {
  /** Lamps as letters: `RAG`, `RG` for people on foot, `G` for an arrow. */
  readonly lamps?: string;
  readonly [more: string]: unknown;
}

/** A layout with one junction; phases by id, everything else as in a file. */
export function layoutOf(phases: Readonly<Record<string, PhaseWords>>, site: Loose, practice = 'uk-today'): Loose {
  let bit = 0;
  const colours: Record<string, string> = { R: 'red', A: 'amber', G: 'green' };
  const made = Object.entries(phases).map(([id, { lamps = 'RAG', ...more }]) => ({
    id,
    name: id,
    lamps: Object.fromEntries([...lamps].map((letter) => [colours[letter], { bit: bit++ }])),
    ...more,
  }));
  const ids = new Set<string>([
    ...made.flatMap((phase: Loose) => phase.demand ?? []),
    ...site.stages.flatMap((stage: Loose) => stage.extend?.detectors ?? []),
  ]);
  return {
    format: 'amberwick-layout',
    version: 1,
    name: 'Penmarrow',
    scale: 'OO',
    practice,
    boards: [
      {
        id: 'b1',
        name: 'Board 1',
        chip: 'atmega2560',
        chain: { chips: Math.max(1, Math.ceil(bit / 8)), data: 'D2', clock: 'D3', latch: 'D4' },
      },
    ],
    inputs: [...ids].map((id, index) => ({ id, name: id, board: 'b1', pin: `D${22 + index}`, debounce: 0 })),
    sites: [{ kind: 'junction', id: 'cross', name: 'The Cross', board: 'b1', phases: made, ...site }],
  };
}

/** What the compiler makes of it, and what it has to say. */
export function compiled(layout: Loose): { board: CompiledBoard | null; told: string[] } {
  const { layout: good, findings } = readLayout(layout);
  if (good === null) return { board: null, told: findings.map((it) => `${it.severity} ${it.code} ${it.path}`) };
  const { boards, findings: more } = compileLayout(good);
  return {
    board: boards[0] ?? null,
    told: [...findings, ...more].map((it) => `${it.severity} ${it.code} ${it.path}`),
  };
}

export function tableOf(layout: Loose): BoardTable {
  const { board, told } = compiled(layout);
  if (board === null) throw new Error(told.join('\n'));
  return board.table;
}

/** States of a row, phase by phase: `..G R.. .g`; a small letter flashes. */
export function marks(lamps: readonly string[], states: readonly LampState[]): string {
  let text = '';
  lamps.forEach((lamp, index) => {
    const [phase, colour = ''] = lamp.split(' ');
    if (index > 0 && phase !== lamps[index - 1]?.split(' ')[0]) text += ' ';
    const letter = colour.slice(0, 1);
    const state = states[index];
    text += state === 'dark' ? '.' : state === 'lit' ? letter.toUpperCase() : letter;
  });
  return text;
}

/** The rows of the first program, one line each: `3 after 2 ..G R..`, `5 jump no 0 to 9`. */
export function rowsOf(table: BoardTable): string[] {
  const program = table.programs[0];
  return (program?.rows ?? []).map((row, index) => {
    if ('states' in row) {
      const shown = marks(program?.lamps ?? [], row.states);
      if (row.op === 'after') return `${index} after ${program?.dials[row.dial]?.name} ${shown}`;
      if (row.op === 'until') return `${index} until ${'inputs' in row.when ? row.when.inputs : ''} ${shown}`;
      if (row.op === 'extend') return `${index} extend ${row.detectors} against ${row.opposing} ${shown}`;
      return `${index} ${row.op} ${shown}`;
    }
    if (row.op !== 'jump') return `${index} ${row.op} ${row.inputs}`;
    const inputs = 'inputs' in row.when ? row.when.inputs : [];
    if (inputs.length === 0) return `${index} jump to ${row.to}`;
    return `${index} jump ${row.when.kind === 'demand' ? 'if' : 'unless'} ${inputs} to ${row.to}`;
  });
}

/** Lines such as `18001 .A. R..`: board time of a change of rows and what they show. */
export function watch(table: BoardTable, ms: number, acts: readonly Act[] = []): string[] {
  const lines: string[] = [];
  const program = table.programs[0];
  const board = new Interpreter(table, {
    row: (now, site, row) => {
      const interval = program?.rows[row];
      if (site === 0 && interval && 'states' in interval) lines.push(`${now} ${marks(program.lamps, interval.states)}`);
    },
    fault: (now, _, fault) => lines.push(`${now} fault ${fault}`),
  });
  board.start();
  for (const [at, act] of acts) {
    board.run(at - board.ran);
    act(board);
  }
  board.run(ms - board.ran);
  return lines;
}
