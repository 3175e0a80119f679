/** Junction plans for tests, in seconds where a person would write seconds. */

import type { PlannedInterval } from '../../shared/signals/intervals.ts';
import type { JunctionPlan } from '../../shared/signals/plan.ts';

export interface PlanWords {
  /** Phase ids. */
  readonly phases: string;
  /** Stages as phase ids, such as `['AC', 'B']`. */
  readonly stages: readonly string[];
  readonly greens: readonly number[];
  /** `{ AB: 5 }`: from A to B. */
  readonly intergreens: Readonly<Record<string, number>>;
  readonly minGreen?: number;
  readonly amber?: number;
  readonly redWithAmber?: number;
  /** Phases that are filter arrows: no amber, no red with amber. */
  readonly arrows?: string;
}

export function planOf(words: PlanWords): JunctionPlan {
  const ids = [...words.phases];
  const changes = (id: string, seconds: number): number => (words.arrows?.includes(id) ? 0 : seconds * 1000);
  return {
    phases: ids.map((id) => ({
      id,
      name: id,
      minGreen: (words.minGreen ?? 7) * 1000,
      amber: changes(id, words.amber ?? 3),
      redWithAmber: changes(id, words.redWithAmber ?? 2),
    })),
    stages: words.stages.map((phases, index) => ({
      id: String(index + 1),
      name: `stage ${index + 1}`,
      phases: [...phases].map((id) => ids.indexOf(id)).sort((a, b) => a - b),
      green: (words.greens[index] ?? 10) * 1000,
    })),
    intergreens: ids.map((from) =>
      ids.map((to) => {
        const seconds = words.intergreens[from + to];
        return seconds === undefined ? null : seconds * 1000;
      }),
    ),
  };
}

const LETTERS = { red: 'R', 'red-with-amber': 'X', green: 'G', amber: 'A', clearing: 'C' } as const;

/** `18 GR stage`: seconds, aspect of each phase (X is red with amber, C clearing), cause. */
export function lines(intervals: readonly PlannedInterval[]): string[] {
  return intervals.map(
    ({ ms, aspects, cause }) => `${ms / 1000} ${aspects.map((aspect) => LETTERS[aspect]).join('')} ${cause.is}`,
  );
}
