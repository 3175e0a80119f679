/** Layouts of one board for tests of lamp groups, and their runs as lines such as `1010 .R ..R`. */
import { Interpreter } from '../../shared/interpreter/interpreter.ts';
import { readLayout } from '../../shared/layout/parse.ts';
import type { Layout, Site } from '../../shared/layout/schema.ts';
import { type CompiledBoard, compileLayout } from '../../shared/signals/compile.ts';
import { encodeTable } from '../../shared/table/encode.ts';
import type { Act } from '../fixtures/film.ts';

/** What the layout of a test has beside its sites. Inputs are ids; their pins are A0, A1 and so on. */
export interface Around {
  readonly practice?: string;
  readonly chip?: 'atmega328p' | 'atmega2560';
  readonly inputs?: readonly string[];
  readonly night?: string;
  readonly cycle?: number;
  readonly debounce?: number;
  readonly chain?: Layout['boards'][number]['chain'];
}

export function layoutOf(sites: readonly Site[], around: Around = {}): Layout {
  const { practice = 'uk-today', chip = 'atmega328p', inputs = [], night, cycle, debounce, chain } = around;
  const { layout, findings } = readLayout({
    format: 'amberwick-layout',
    version: 1,
    name: 'Penmarrow',
    scale: 'OO',
    practice,
    boards: [
      {
        id: 'b',
        name: 'Board',
        chip,
        ...(night === undefined ? {} : { switches: { night } }),
        ...(chain === undefined ? {} : { chain }),
      },
    ],
    inputs: inputs.map((id, index) => ({
      id,
      name: id,
      board: 'b',
      pin: `A${index}`,
      ...(debounce === undefined ? {} : { debounce }),
    })),
    ...(cycle === undefined ? {} : { groups: [{ id: 'line', name: 'Line', board: 'b', cycle }] }),
    sites,
  });
  if (layout === null) throw new Error(JSON.stringify(findings));
  return layout;
}

/** `severity code path` of each finding. */
export function told(sites: readonly Site[], around: Around = {}): string[] {
  return compileLayout(layoutOf(sites, around)).findings.map((it) => `${it.severity} ${it.code} ${it.path}`);
}

/** The compiled board; it encodes, and nothing was found fault with except `expected` codes. */
export function boardOf(sites: readonly Site[], around: Around = {}, expected: readonly string[] = []): CompiledBoard {
  const { boards, findings } = compileLayout(layoutOf(sites, around));
  const strange = findings.filter((finding) => !expected.includes(finding.code));
  const [board] = boards;
  if (board === undefined || strange.length > 0) throw new Error(JSON.stringify(findings, null, 2));
  const { bytes, findings: faults } = encodeTable(board.table);
  if (bytes === null) throw new Error(JSON.stringify(faults));
  return board;
}

/** The first letters of the colours of lit lamps, dots for dark ones, a space between sites. */
export function aspects(board: CompiledBoard, lit: readonly boolean[]): string {
  return board.sites
    .map(({ lamps }) => lamps.map(({ index, colour }) => (lit[index] ? colour.charAt(0).toUpperCase() : '.')).join(''))
    .join(' ');
}

/** Lines of board time and what is lit from then on. */
export function lampFilm(board: CompiledBoard, ms: number, acts: readonly Act[] = []): string[] {
  const lines: string[] = [];
  const run = new Interpreter(board.table, { lamps: (now, lit) => lines.push(`${now} ${aspects(board, lit)}`) });
  run.start();
  for (const [at, act] of acts) {
    run.run(at - run.ran);
    act(run);
  }
  run.run(ms - run.ran);
  return lines;
}
