/** What a lamp check is made of, apart from its going. */
import type { ReadonlySignal, Signal } from '@preact/signals';
import { z } from 'zod';
import type { Scope } from '../../shared/lampcheck/check.ts';
import type { CheckRecord } from '../../shared/layout/check-record.ts';
import type { BoardModel } from './board.ts';
import type { Timers } from './check-light.ts';
import type { OpenLayout } from './document.ts';
import type { Model } from './model.ts';

/**
 * begin: nothing is under way; asking: one lamp is lit and waits for its answer; pointing: which one lit instead;
 * walking: it steps by itself; marking: which of those were not right; broken: the board let go; ending: all is answered
 * and is being written down; summary: it is.
 */
export type Phase = 'begin' | 'asking' | 'pointing' | 'walking' | 'marking' | 'broken' | 'ending' | 'summary';

/** The lamps are not held for an answer. */
export const RESTING: readonly Phase[] = ['begin', 'ending', 'summary'];

export interface Wishes {
  readonly board: string;
  readonly scope: Scope;
  readonly others: 'dark' | 'safe';
}

export interface CheckParts {
  readonly ask: Model['ask'];
  readonly open: ReadonlySignal<OpenLayout>;
  readonly board: (id: string) => BoardModel;
  readonly change: Model['change'];
  /** Who answers; kept on this computer. */
  readonly checker: Signal<string>;
  /** What the check that is under way is about, for whoever comes back to it. */
  readonly scopeKept: Signal<string>;
  /** Wall-clock time, ISO 8601 with zone. */
  readonly now?: () => string;
  readonly timers?: Timers;
}

export const WINDOW_TIMERS: Timers = {
  set: (ms, then) => {
    const timer = setTimeout(then, ms);
    return () => clearTimeout(timer);
  },
};

const SCOPE = z.discriminatedUnion('is', [
  z.object({ is: z.literal('all') }),
  z.object({ is: z.literal('open') }),
  z.object({ is: z.literal('site'), site: z.string() }),
  z.object({ is: z.literal('lamps'), lamps: z.array(z.number()) }),
]);

/** What a check is about, for whoever comes back to it. */
export function scopeText(began: string, scope: Scope): string {
  return JSON.stringify({ began, scope });
}

/** Everything, where nothing was kept or it is of another check. */
export function scopeFrom(text: string, { began }: Pick<CheckRecord, 'began'>): Scope {
  try {
    const kept = JSON.parse(text);
    const scope = SCOPE.safeParse(kept.scope);
    if (kept.began === began && scope.success) return scope.data;
  } catch {
    // Nothing was kept.
  }
  return { is: 'all' };
}
