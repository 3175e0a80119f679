/** An earlier session in words. */
import type { EarlierSession } from '../../shared/workbench/calls/sessions.ts';
import { counted, listed, spanText } from '../../shared/workbench/story/counted.ts';
import { clockText, dateText, momentMs, wallOf, type Zone } from '../../shared/workbench/story/moment.ts';

/** `Tuesday 24 November 2026, 19:00`; its file where no time is known. */
export function sessionMoment(from: string, name: string, zone: Zone): string {
  const ms = momentMs(from);
  if (ms === null) return name;
  const wall = wallOf(ms, zone);
  return `${dateText(wall)}, ${clockText(wall)}`;
}

/** `2 hours 10 minutes, 48 entries, Penmarrow`. */
export function sessionFacts(session: EarlierSession): string {
  const { from, to, entries, layouts, ended, unreadable, problem } = session;
  if (problem !== null) return `Cannot be read. ${problem}`;
  if (entries === 0 && unreadable === 0) return 'Nothing was written into it.';
  const [begin, end] = [momentMs(from), momentMs(to)];
  const span = begin === null || end === null ? [] : [spanText(end - begin)];
  return [
    ...span,
    counted(entries, 'entry', 'entries'),
    ...(layouts.length > 0 ? [listed(layouts, 3)] : []),
    ...(ended ? [] : ['not closed']),
    ...(unreadable > 0 ? [`${counted(unreadable, 'line')} damaged`] : []),
  ].join(', ');
}
