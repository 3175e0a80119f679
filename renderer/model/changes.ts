/** Every change of a time in this session, as the log has it, and the way back to any moment of it. */
import { type LoggedChange, readChanges } from '../../shared/workbench/changes.ts';
import type { LogEntry } from '../../shared/workbench/contract.ts';
import type { Model } from './model.ts';
import { type Change, TOGETHER } from './nudges.ts';

/** A moment after which the times were others than before. */
export interface Point {
  /** Of its newest entry in the log; 0: the session's beginning. */
  readonly number: number;
  /** ISO 8601. */
  readonly at: string;
  readonly kind: LogEntry['kind'];
  /** `nudge`, or who changed several at once. */
  readonly who: string;
  readonly text: string;
  /** Empty where the times were kept. */
  readonly changes: readonly LoggedChange[];
}

/** Oldest first. Tables that were sent or put back are changes like any other. */
export function pointsOf(log: readonly LogEntry[], board: string): Point[] {
  const points: Point[] = [];
  for (const entry of log) {
    const changes = readChanges(entry);
    if (entry.board !== board || (changes.length === 0 && entry.kind !== 'keep')) continue;
    const who = typeof entry.data?.who === 'string' ? entry.data.who : entry.kind;
    const point = { number: entry.number, at: entry.at, kind: entry.kind, who, text: entry.text, changes };
    const before = points.at(-1);
    const whole = before && together(before, point);
    if (whole) points[points.length - 1] = whole;
    else points.push(point);
  }
  return points;
}

/** Quick presses as one. */
function together(before: Point, next: Point): Point | null {
  const [one, other] = [before.changes[0], next.changes[0]];
  const isSame =
    before.who === 'nudge' && next.who === 'nudge' && one?.site === other?.site && one?.dial === other?.dial;
  const isQuick = Date.parse(next.at) - Date.parse(before.at) < TOGETHER;
  if (!isSame || !isQuick || !one || !other) return null;
  return { ...next, changes: [{ ...other, from: one.from }] };
}

/** Times after the point `at`, by `site/dial`; −1: before the first. Dials that nobody changed are not among them. */
export function timesAt(points: readonly Point[], at: number): Map<string, number> {
  const times = new Map<string, number>();
  points.forEach(({ changes }, index) => {
    for (const { site, dial, from, to } of changes) {
      const key = `${site}/${dial}`;
      if (index <= at) times.set(key, to);
      else if (!times.has(key)) times.set(key, from);
    }
  });
  return times;
}

/** What has to be turned so that the board runs the times of the point `at`. */
export function wayTo(model: Model, board: string, points: readonly Point[], at: number): Change[] {
  const times = timesAt(points, at);
  return model.open.value.sites.flatMap((site): Change[] => {
    if (site.board !== board) return [];
    return site.names.dials.flatMap(({ id }, dial): Change[] => {
      const place = { board, site: site.number, dial };
      const [from, to] = [model.nudges.value(place), times.get(`${site.id}/${id}`)];
      return from === null || to === undefined || from === to ? [] : [{ ...place, from, to }];
    });
  });
}

/** Back, or on again; one step of undo and one line in the log. */
export async function walkTo(
  model: Model,
  board: string,
  points: readonly Point[],
  at: number,
  when: string,
): Promise<void> {
  await model.nudges.many(wayTo(model, board, points, at), `Went to the times of ${when}`, 'walk');
}
