/** A session in a line: when, how long, of which layouts. */
import type { EarlierSession } from '../../../shared/workbench/calls/sessions.ts';
import type { ReadLines } from '../../../shared/workbench/story/lines.ts';

const OPENED = /^Opened (.+?)(?:\.json|\.amberwick)?(?: as it was .*)?\.$/;

export function headOf(name: string, { entries, unreadable }: ReadLines): EarlierSession {
  const layouts = entries.flatMap(({ kind, text }) => (kind === 'document' ? (OPENED.exec(text)?.[1] ?? []) : []));
  return {
    name,
    from: entries[0]?.at ?? '',
    to: entries.at(-1)?.at ?? '',
    entries: entries.length,
    layouts: [...new Set(layouts)],
    ended: entries.at(-1)?.kind === 'end',
    unreadable: unreadable.length,
    problem: null,
  };
}

export function unreadableHead(name: string, why: string): EarlierSession {
  return { name, from: '', to: '', entries: 0, layouts: [], ended: false, unreadable: 0, problem: why };
}
