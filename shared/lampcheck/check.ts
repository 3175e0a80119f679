/**
 * A lamp check as it goes: one lamp after the other, an answer for each. Values, no clocks: times are told.
 * Every function gives a new check and leaves the old one as it is.
 */
import type { Load } from '../electrics/model.ts';
import type { CheckedLamp, CheckRecord, CheckResult } from '../layout/check-record.ts';
import { inCheckOrder, keyOf } from './lamps.ts';
import { answerFor, mergeRecords, standingOf, timeOf } from './record.ts';

/** Which lamps: all, those of one site, or those whose last answer was not `right` or was for another output. */
export type Scope =
  | { readonly is: 'all' }
  | { readonly is: 'site'; readonly site: string }
  | { readonly is: 'open' }
  /** Just these, by number. */
  | { readonly is: 'lamps'; readonly lamps: readonly number[] };

export interface Answer {
  readonly result: CheckResult;
  /** Lamps that lit instead of, or beside, the one asked for. */
  readonly saw?: readonly Load[];
  readonly note?: string;
}

export interface Check {
  readonly board: string;
  readonly by: string | null;
  /** ISO 8601 with zone. */
  readonly began: string;
  /** All lamps of the board, in the order of a check. */
  readonly loads: readonly Load[];
  /** The lamps of this check, in order. */
  readonly steps: readonly Load[];
  /** Index of the lamp that is asked for; the number of steps when all are answered. */
  readonly at: number;
  /** Answers of this check, by number of the lamp. */
  readonly answers: ReadonlyMap<number, CheckedLamp>;
  /** What was answered before, newest last, so that answers can be taken back. */
  readonly past: readonly { readonly at: number; readonly answers: ReadonlyMap<number, CheckedLamp> }[];
  /** What was known before this check. */
  readonly before: CheckRecord | null;
}

export interface Begin {
  readonly board: string;
  readonly by?: string;
  /** ISO 8601 with zone. */
  readonly now: string;
  readonly before: CheckRecord | null;
}

export function lampsInScope(loads: readonly Load[], scope: Scope, before: CheckRecord | null): Load[] {
  const ordered = inCheckOrder(loads);
  switch (scope.is) {
    case 'all':
      return ordered;
    case 'site':
      return ordered.filter(({ site }) => site === scope.site);
    case 'lamps':
      return ordered.filter(({ lamp }) => scope.lamps.includes(lamp));
    case 'open':
      return ordered.filter((load) => standingOf(loads, load, before) !== 'right');
  }
}

export function beginCheck(loads: readonly Load[], scope: Scope, { board, by, now, before }: Begin): Check {
  return {
    board,
    by: by ?? null,
    began: now,
    loads: inCheckOrder(loads),
    steps: lampsInScope(loads, scope, before),
    at: 0,
    answers: new Map(),
    past: [],
    before,
  };
}

/**
 * Goes on with a check that was left: `record` is what it had noted. Answers count where the lamp still has the
 * output that it was answered for; the first lamp without one is asked for.
 */
export function resumeCheck(loads: readonly Load[], scope: Scope, record: CheckRecord, by?: string): Check {
  const began = timeOf(record.began);
  const answers = new Map<number, CheckedLamp>();
  for (const load of loads) {
    const answer = answerFor(loads, load, record);
    if (answer && timeOf(answer.at) >= began && answer.output === load.outputName) answers.set(load.lamp, answer);
  }
  const earlier = { ...record, lamps: record.lamps.filter(({ at }) => timeOf(at) < began) };
  const before = earlier.lamps.length > 0 ? earlier : null;
  const answerer = by ?? record.by;
  const begun = beginCheck(loads, scope, {
    board: record.board,
    ...(answerer === undefined ? {} : { by: answerer }),
    now: record.began,
    before,
  });
  return { ...begun, answers, at: firstOpen(begun.steps, answers, 0) };
}

/** Null when all are answered. */
export function stepAt(check: Check): Load | null {
  return check.steps[check.at] ?? null;
}

export function isDone(check: Check): boolean {
  return check.steps.every(({ lamp }) => check.answers.has(lamp));
}

/**
 * Answers the lamp at hand and goes to the next one without an answer. Nothing happens when none is at hand.
 * Somebody who says "wrong" and points at the lamp itself has seen it light: alone it was right, else it is `two`.
 */
export function answer(check: Check, { result: said, saw, note }: Answer, now: string): Check {
  const load = stepAt(check);
  if (!load) return check;
  const others = (saw ?? []).filter(({ lamp }) => lamp !== load.lamp).slice(0, 8);
  const litItself = said === 'wrong' && (saw ?? []).some(({ lamp }) => lamp === load.lamp);
  const result = !litItself ? said : others.length > 0 ? 'two' : 'right';
  const checked: CheckedLamp = {
    ...keyOf(load),
    output: load.outputName,
    result,
    ...(others.length > 0 ? { saw: others.map(keyOf) } : {}),
    at: now,
    ...(note === undefined ? {} : { note }),
  };
  const answers = new Map(check.answers).set(load.lamp, checked);
  return {
    ...check,
    answers,
    at: firstOpen(check.steps, answers, check.at + 1),
    past: [...check.past, { at: check.at, answers: check.answers }],
  };
}

/** Takes the newest answer back; its lamp is asked for again. */
export function takeBack(check: Check): Check {
  const before = check.past.at(-1);
  return before ? { ...check, ...before, past: check.past.slice(0, -1) } : check;
}

/** Asks for another lamp, answered or not. */
export function goTo(check: Check, index: number): Check {
  return { ...check, at: Math.max(0, Math.min(check.steps.length - 1, index)) };
}

export function countAnswered({ steps, answers }: Check): number {
  return steps.filter(({ lamp }) => answers.has(lamp)).length;
}

/**
 * The record with everything that is known of the board's lamps, these answers among it; `ended` when the check is over.
 */
export function recordOf(check: Check, ended?: string): CheckRecord {
  const own: CheckRecord = {
    board: check.board,
    ...(check.by === null ? {} : { by: check.by }),
    began: check.began,
    ...(ended === undefined ? {} : { ended }),
    lamps: check.loads.flatMap(({ lamp }) => check.answers.get(lamp) ?? []),
  };
  return mergeRecords(check.before, own) ?? own;
}

/** From `from` on, and then from the beginning; the number of steps when there is none. */
function firstOpen(steps: readonly Load[], answers: ReadonlyMap<number, CheckedLamp>, from: number): number {
  const open = (load: Load): boolean => !answers.has(load.lamp);
  const later = steps.findIndex((load, at) => at >= from && open(load));
  const any = later >= 0 ? later : steps.findIndex(open);
  return any >= 0 ? any : steps.length;
}
