/** Runs of entries that belong together, and the one sentence for each. */
import type { LogEntry } from '../contract.ts';
import { timeText } from '../words.ts';
import { counted, spanText, timesText } from './counted.ts';
import { momentMs } from './moment.ts';
import { boardOf, dialKey, dialOf, timesOf } from './named.ts';

export interface Fold {
  readonly entries: readonly LogEntry[];
  /** Null: the sentence of its only entry. */
  readonly text: string | null;
}

/** What may stand within a run without ending it. */
type Run = 'nudges' | 'connection' | null;

function runOf(entry: LogEntry): Run {
  // Many times changed at once are a step of their own.
  if (entry.kind === 'nudge') return dialKey(entry) === null ? null : 'nudges';
  return entry.kind === 'connection' || entry.kind === 'reset' ? 'connection' : null;
}

/** Every entry is in one fold; folds stand where their first entry stood. */
export function foldsOf(entries: readonly LogEntry[]): Fold[] {
  const folds: Fold[] = [];
  for (let at = 0; at < entries.length; ) {
    const kind = runOf(entries[at] as LogEntry);
    let end = at + 1;
    while (end < entries.length && kind !== null && runOf(entries[end] as LogEntry) === kind) end++;
    const run = entries.slice(at, end);
    if (kind === 'nudges') folds.push(...nudgeFolds(run));
    else if (kind === 'connection') folds.push(...connectionFolds(run));
    else at = addRepeats(folds, entries, at) - 1;
    at = kind === null ? at + 1 : end;
  }
  return folds;
}

const single = (entry: LogEntry): Fold => ({ entries: [entry], text: null });

/** In the order of the first entry of each group. */
function grouped(run: readonly LogEntry[], keyOf: (entry: LogEntry) => string): LogEntry[][] {
  const groups = new Map<string, LogEntry[]>();
  for (const entry of run) {
    const key = keyOf(entry);
    const group = groups.get(key);
    if (group) group.push(entry);
    else groups.set(key, [entry]);
  }
  return [...groups.values()];
}

/** A dial turned many times is one sentence, also where other dials were turned in between. */
function nudgeFolds(run: readonly LogEntry[]): Fold[] {
  return grouped(run, (entry) => dialKey(entry) ?? '').map((entries) =>
    entries.length === 1 ? { entries, text: null } : { entries, text: tunedText(entries) },
  );
}

function tunedText(entries: readonly LogEntry[]): string {
  const dial = dialOf(entries[0] as LogEntry) ?? 'one time';
  const changes = counted(entries.length, 'change');
  const on = boardOf(entries[0] as LogEntry);
  const times = entries.flatMap((entry) => timesOf(entry) ?? []);
  const [first, last] = [times[0], times.at(-1)];
  if (!first || !last) return `Changed ${dial} in ${changes}${on ? ` on ${on}` : ''}.`;
  const all = times.flatMap(({ from, to }) => (from === null ? [to] : [from, to]));
  const [least, most] = [Math.min(...all), Math.max(...all)];
  const start = first.from ?? first.to;
  const between = least < Math.min(start, last.to) || most > Math.max(start, last.to);
  const tried = between ? `, trying ${timeText(least)} to ${timeText(most)}` : '';
  if (start === last.to)
    return `Tried other times for ${dial} and came back to ${timeText(start)} in ${changes}${tried}.`;
  return `Changed ${dial} from ${timeText(start)} to ${timeText(last.to)} in ${changes}${tried}.`;
}

const isLoss = ({ kind, data, text }: LogEntry): boolean =>
  kind === 'connection' && (data?.problem !== undefined || / broke off\.| has fallen silent\./.test(text));

const isReturn = ({ kind, data, text }: LogEntry): boolean =>
  kind === 'connection' && (data?.identity !== undefined || data?.running !== undefined || / came back at /.test(text));

/** From the first loss on, coming and going of one board is one sentence, with its starts. */
function connectionFolds(run: readonly LogEntry[]): Fold[] {
  return grouped(run, ({ board }) => board ?? '')
    .flatMap((entries) => {
      const begin = entries.findIndex(isLoss);
      if (begin < 0) return entries.map(single);
      // Disconnected by hand, it is a new story.
      const rest = entries.slice(begin);
      const stop = rest.findIndex((it) => it.kind === 'connection' && !isLoss(it) && !isReturn(it));
      const end = stop < 0 ? rest.length : stop;
      const flaps = rest.slice(0, end);
      const folded = flaps.length === 1 ? single(flaps[0] as LogEntry) : { entries: flaps, text: flapsText(flaps) };
      return [...entries.slice(0, begin).map(single), folded, ...connectionFolds(rest.slice(end))];
    })
    .sort((a, b) => (a.entries[0]?.number ?? 0) - (b.entries[0]?.number ?? 0));
}

function flapsText(entries: readonly LogEntry[]): string {
  const board = boardOf(entries[0] as LogEntry) ?? 'the board';
  let losses = 0;
  let away = 0;
  let since: number | null = null;
  for (const entry of entries) {
    const at = momentMs(entry.at);
    if (isLoss(entry)) {
      losses += 1;
      since ??= at;
    } else if (isReturn(entry)) {
      if (since !== null && at !== null) away += Math.max(0, at - since);
      since = null;
    }
  }
  const starts = entries.filter(({ kind }) => kind === 'reset').length;
  const anew = starts === 0 ? '' : `; it started anew ${timesText(starts)}`;
  const lost = `The connection to ${board} broke off${losses > 1 ? ` ${timesText(losses)}` : ''}`;
  if (since !== null) return `${lost} and is not back${anew}.`;
  const span = spanText(away);
  return losses === 1
    ? `${lost} and came back after ${span}${anew}.`
    : `${lost}, for ${span} in all, and came back${anew}.`;
}

/** The same sentence again and again is told once, with a count. Gives the index after them. */
function addRepeats(folds: Fold[], entries: readonly LogEntry[], at: number): number {
  const first = entries[at] as LogEntry;
  const isSame = (it: LogEntry | undefined): boolean =>
    it?.kind === first.kind && it.text === first.text && it.board === first.board;
  let end = at + 1;
  const isNote = first.kind === 'remark' || first.kind === 'photo';
  while (!isNote && isSame(entries[end])) end++;
  const repeats = entries.slice(at, end);
  const text = repeats.length === 1 ? null : `${first.text} This happened ${timesText(repeats.length)}.`;
  folds.push({ entries: repeats, text });
  return end;
}
