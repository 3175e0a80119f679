/** A log as a file: as a story, as a table, or line for line. */
import type { LogEntry } from '../contract.ts';
import { csvOf } from './csv.ts';
import { entriesIn, type Filter, filterStory, isEverything } from './filter.ts';
import { GROUPS } from './groups.ts';
import { linesOf } from './lines.ts';
import { dateText, momentMs, wallOf, type Zone } from './moment.ts';
import { storyOf } from './story.ts';
import { storyText } from './text.ts';

export type Format = 'txt' | 'csv' | 'jsonl';

export interface Exported {
  /** File name of the session. */
  readonly session: string;
  /** What was open, for the first line; null where nobody knows. */
  readonly layout: string | null;
  readonly entries: readonly LogEntry[];
  /** `EVERYTHING` for all of it. */
  readonly filter: Filter;
  readonly zone: Zone;
}

/** Corrections and the notes that they correct go together, whatever is left out. */
export function exported(format: Format, { session, layout, entries, filter, zone }: Exported) {
  const shown = filterStory(storyOf(entries, zone), filter);
  const part = isEverything(filter) ? entries : entriesIn(shown);
  const base = session.replace(/\.jsonl$/, '');
  const name = `${base}${isEverything(filter) ? '' : '-part'}.${format}`;
  if (format === 'jsonl') return { name, text: linesOf(part) };
  if (format === 'csv')
    return {
      name,
      text: csvOf(
        part.map((entry) => ({ session, entry })),
        zone,
      ),
    };
  return { name, text: storyText(heading(entries[0], layout, filter, zone), shown) };
}

function heading(first: LogEntry | undefined, layout: string | null, filter: Filter, zone: Zone): string {
  const ms = first ? momentMs(first.at) : null;
  const when = ms === null ? '' : ` of ${dateText(wallOf(ms, zone))}`;
  const only = filterWords(filter);
  return `Session log${when}${layout === null ? '' : `, ${layout}`}${only === '' ? '' : ` (only ${only})`}`;
}

function filterWords({ groups, board, site, search }: Filter): string {
  const named = GROUPS.filter(({ id }) => groups.has(id)).map(({ name }) => name.toLowerCase());
  const words = search.words.length > 0 ? [`with "${search.words.join(' ')}"`] : [];
  return [...named, ...(board === null ? [] : [board]), ...(site === null ? [] : [site]), ...words].join(', ');
}
