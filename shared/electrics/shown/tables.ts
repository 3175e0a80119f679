/** Parts of a board's table, by the names that the programs of sites have. */
import type { CompiledBoard } from '../../signals/compile.ts';

export type BoardTable = CompiledBoard['table'];
export type Program = BoardTable['programs'][number];
export type SiteBinding = BoardTable['sites'][number];
export type Row = Program['rows'][number];
export type Interval = Extract<Row, { readonly states: unknown }>;
export type Action = Exclude<Row, Interval>;
export type Condition = Extract<Row, { readonly op: 'jump' }>['when'];
export type LampState = Program['safe'][number];

export function isInterval(row: Row): row is Interval {
  return 'states' in row;
}
