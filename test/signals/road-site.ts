/** A board of Penmarrow with one site on it, for tests of crossings and shuttles. */
import { expect } from 'vitest';
import type { Finding } from '../../shared/findings/finding.ts';
import { readLayout } from '../../shared/layout/parse.ts';
import { makeCrossing } from '../../shared/layout/templates/crossing.ts';
import { makeLevelCrossing } from '../../shared/layout/templates/level-crossing.ts';
import { makePelican } from '../../shared/layout/templates/pelican.ts';
import { makeShuttle } from '../../shared/layout/templates/shuttle.ts';
import { type CompiledBoard, compileLayout } from '../../shared/signals/compile.ts';
import { checkTable } from '../../shared/table/check.ts';
import { encodeTable } from '../../shared/table/encode.ts';
import type { BoardTable } from '../../shared/table/model.ts';

export const pins = (first: number, count: number) =>
  Array.from({ length: count }, (_, index) => ({ pin: `D${first + index}` }));

const at = (id: string, name: string) => ({ id, name, board: 'town' });

export const input = (id: string, pin: string, more: object = {}) => ({ ...at(id, id), pin, ...more });

/** Vehicles on D2 to D4, figures on D5 and D6. */
export const townHall = (more: object = {}) => ({
  ...makePelican({ ...at('town-hall', 'Town Hall'), lamps: [pins(2, 3), pins(5, 2)], buttons: ['button'] }),
  ...more,
});

export const schoolLane = (more: object = {}) => ({
  ...makeCrossing({ ...at('school-lane', 'School Lane'), lamps: [pins(2, 3), pins(5, 2)], buttons: ['button'] }),
  ...more,
});

/** Amber on D2, reds on D3 and D4. */
export const gasworks = (more: object = {}) => ({
  ...makeLevelCrossing({ ...at('gasworks', 'Gasworks crossing'), lamps: pins(2, 3), detectors: ['down'] }),
  ...more,
});

/** The upper end on D2 to D4, the lower on D5 to D7. */
export const seaWall = (more: object = {}) => ({
  ...makeShuttle({ ...at('sea-wall', 'Sea Wall works'), lamps: [pins(2, 3), pins(5, 3)] }),
  ...more,
});

export interface Town {
  readonly sites: readonly object[];
  readonly inputs?: readonly object[];
  readonly practice?: string;
  readonly more?: object;
}

export function townLayout({ sites, inputs, practice, more }: Town): object {
  return {
    format: 'amberwick-layout',
    version: 1,
    name: 'Penmarrow',
    scale: 'OO',
    practice: practice ?? 'uk-today',
    boards: [{ id: 'town', name: 'Town board', chip: 'atmega328p' }],
    inputs: inputs ?? [],
    sites,
    ...more,
  };
}

/** Findings as `warning not-in-practice sites[0]`; each says what, why and how to mend it. */
export function told(town: Town): string[] {
  const read = readLayout(townLayout(town));
  const findings: Finding[] = [...read.findings];
  if (read.layout !== null) findings.push(...compileLayout(read.layout).findings);
  for (const text of findings.flatMap(({ what, why, cure }) => [what, why, cure])) {
    expect(text).toMatch(/^["A-Z0-9].*[.]$/);
    expect(text).not.toMatch(/undefined|null|NaN|\[object/);
  }
  return findings.map(({ severity, code, path }) => `${severity} ${code} ${path}`);
}

/** The board as compiled, without errors, and consistent by the rules of the image. */
export function boardOf(town: Town): CompiledBoard {
  const { layout, findings } = readLayout(townLayout(town));
  expect(findings).toEqual([]);
  if (layout === null) throw new Error('no layout');
  const { boards, findings: more } = compileLayout(layout);
  expect(more.filter((it) => it.severity === 'error')).toEqual([]);
  const [board] = boards;
  if (board === undefined) throw new Error('no board');
  expect(checkTable(board.table)).toEqual([]);
  expect(encodeTable(board.table).bytes).not.toBeNull();
  return board;
}

/** The board's table with lamp names for `film`: letters of the lamps, head by head, such as `RAG RG`. */
export function tableOf(town: Town, heads: string): BoardTable {
  const { table } = boardOf(town);
  const names = heads
    .split(' ')
    .flatMap((head, index) => (head === 'WAIT' ? [head] : [...head].map((it) => `${index} ${it}`)));
  expect(table.lamps).toHaveLength(names.length);
  return { ...table, lamps: table.lamps.map((lamp, index) => ({ ...lamp, name: names[index] ?? '' })) };
}
