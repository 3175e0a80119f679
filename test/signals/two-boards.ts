/**
 * Two junctions of the Esplanade on two boards, a common cycle of 60 s on each; for
 * tests to wire or not. The second leaves a second of it to spare, as a follower must.
 */
import { parseLayout } from '../../shared/layout/parse.ts';
import type { Layout } from '../../shared/layout/schema.ts';
import { type Edits, edited, type Loose, smallLayout } from '../layout/small.ts';

/** Pier board gives the beat on D8; Harbour board takes it on D9, active high, believed at once. */
export const WIRED: Edits = {
  'groups.0.syncOut': { pin: 'D8' },
  'groups.1.syncIn': 'beat',
  inputs: [{ id: 'beat', name: 'Beat', board: 'harbour', pin: 'D9', activeLow: false, pullUp: false, debounce: 0.01 }],
};

export function esplanade(edits: Edits = {}): Layout {
  const layout = smallLayout();
  const [cross] = layout.sites;
  layout.boards = [
    { id: 'pier', name: 'Pier board', chip: 'atmega328p' },
    { id: 'harbour', name: 'Harbour board', chip: 'atmega328p' },
  ];
  layout.groups = ['pier', 'harbour'].map((board) => ({ id: `${board}-cycle`, name: 'Esplanade', board, cycle: 60 }));
  const junction = (id: string, name: string, board: string, offset: number, second: number): Loose => ({
    ...structuredClone(cross),
    id,
    name,
    board,
    group: `${board}-cycle`,
    offset,
    stages: [
      { id: '1', phases: ['A'], green: 30 },
      { id: '2', phases: ['B'], green: second },
    ],
  });
  layout.sites = [
    junction('approach', 'Pier Approach', 'pier', 10, 20),
    junction('slip', 'Lifeboat Slip', 'harbour', 30, 19),
  ];
  const { layout: parsed, findings } = parseLayout(JSON.stringify(edited(layout, edits)));
  if (parsed === null) throw new Error(JSON.stringify(findings));
  return parsed;
}
