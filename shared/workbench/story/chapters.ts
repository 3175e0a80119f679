/** Where one chapter ends and the next begins, and what a chapter is called. */
import { capital } from '../../findings/capital.ts';
import type { LogEntry, LogKind } from '../contract.ts';
import { counted, listed } from './counted.ts';
import { momentMs } from './moment.ts';
import { boardOf, siteOf } from './named.ts';

/** Nothing for so long ends a chapter, ms. */
const PAUSE_MS = 15 * 60_000;
/** A change of what is done ends a chapter only after so much of the same. */
const FEW = 3;

type Activity = 'plan' | 'tune' | 'check' | 'firmware';

/** Kinds that carry a chapter; all others go along with what is done. */
const ACTIVITIES: Partial<Readonly<Record<LogKind, Activity>>> = {
  nudge: 'tune',
  keep: 'tune',
  putBack: 'tune',
  limit: 'tune',
  check: 'check',
  firmware: 'firmware',
};

const isOpening = ({ kind, text }: LogEntry): boolean => kind === 'document' && text.startsWith('Opened ');

function activityOf(entry: LogEntry): Activity | null {
  if (entry.kind === 'document') return isOpening(entry) ? null : 'plan';
  return ACTIVITIES[entry.kind] ?? null;
}

/** Every entry is in one chapter, in order. */
export function cutChapters(entries: readonly LogEntry[]): LogEntry[][] {
  const chapters: LogEntry[][] = [];
  let cut = new Cut();
  for (const entry of entries) {
    if (cut.entries.length > 0 && cut.endsBefore(entry)) {
      chapters.push(cut.entries);
      cut = new Cut();
    }
    cut.add(entry);
  }
  if (cut.entries.length > 0) chapters.push(cut.entries);
  return chapters;
}

/** A chapter as it grows. */
class Cut {
  readonly entries: LogEntry[] = [];
  private activity: Activity | null = null;
  private amount = 0;
  /** Kept: what was done is done. */
  private isClosed = false;
  private hasWork = false;
  private last: number | null = null;

  endsBefore(entry: LogEntry): boolean {
    const at = momentMs(entry.at);
    const next = activityOf(entry);
    if (entry.kind === 'start' || (at !== null && this.last !== null && at - this.last >= PAUSE_MS)) return true;
    const isStart = this.entries[0]?.kind === 'start' && !this.hasWork;
    if (isOpening(entry)) return !isStart;
    // What a fresh virtual board gets and keeps at the start is no evening's work yet.
    if (isStart) return next !== null && entry.kind !== 'keep';
    return next !== null && (this.isClosed || (next !== this.activity && this.amount >= FEW));
  }

  add(entry: LogEntry): void {
    this.entries.push(entry);
    this.last = momentMs(entry.at) ?? this.last;
    const next = activityOf(entry);
    if (next === null) return;
    this.amount = next === this.activity || this.activity === null ? this.amount + 1 : 1;
    this.activity = next;
    this.hasWork ||= entry.kind !== 'keep';
    this.isClosed = entry.kind === 'keep' && this.hasWork;
  }
}

/** `Tuned Market Cross and kept`. What is said of many chapters is left out where there is more to say. */
export function titleOf(entries: readonly LogEntry[]): string {
  const parts = PARTS.flatMap((part) => {
    const at = entries.findIndex((entry) => part.has(entry));
    if (at < 0) return [];
    return [{ at, minor: part.minor === true, text: part.say(entries.filter((entry) => part.has(entry))) }];
  });
  const major = parts.filter(({ minor }) => !minor);
  const said = listed(
    (major.length > 0 ? major : parts).sort((a, b) => a.at - b.at).map(({ text }) => text),
    5,
  );
  return capital(said);
}

interface Part {
  /** Said only where there is nothing else. */
  readonly minor?: boolean;
  has(entry: LogEntry): boolean;
  say(entries: readonly LogEntry[]): string;
}

const of =
  (...kinds: readonly LogKind[]) =>
  ({ kind }: LogEntry): boolean =>
    kinds.includes(kind);

function names(entries: readonly LogEntry[], nameOf: (entry: LogEntry) => string | null, fallback: string): string {
  const found = [...new Set(entries.flatMap((entry) => nameOf(entry) ?? []))];
  return found.length === 0 ? fallback : listed(found, 3);
}

const PARTS: readonly Part[] = [
  { has: of('start'), say: () => 'started' },
  { minor: true, has: isOpening, say: () => 'opened a layout' },
  {
    has: ({ kind, data, text }) => kind === 'connection' && data?.problem === undefined && text.startsWith('Connected'),
    say: (them) => `connected ${names(them, boardOf, 'a board')}`,
  },
  {
    has: ({ kind, data }) => kind === 'connection' && data?.problem !== undefined,
    say: (them) => `lost ${names(them, boardOf, 'a board')}`,
  },
  { has: of('firmware'), say: () => 'wrote firmware' },
  { has: of('upload'), say: (them) => `sent to ${names(them, boardOf, 'a board')}` },
  { has: of('nudge', 'limit'), say: (them) => `tuned ${names(them, siteOf, 'times')}` },
  { has: (entry) => activityOf(entry) === 'plan', say: () => 'changed the layout' },
  { has: of('check'), say: (them) => `checked lamps of ${names(them, boardOf, 'a board')}` },
  { minor: true, has: of('control'), say: () => 'watched it run' },
  { has: of('keep'), say: () => 'kept' },
  { has: of('putBack'), say: () => 'put back' },
  { has: of('fault', 'problem'), say: (them) => `met ${counted(them.length, 'trouble')}` },
  { minor: true, has: of('power', 'reset'), say: () => 'switched and started boards' },
  { minor: true, has: of('remark', 'photo'), say: (them) => `wrote ${counted(them.length, 'note')}` },
  { has: of('end'), say: () => 'closed' },
];
