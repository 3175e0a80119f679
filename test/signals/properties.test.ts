/** What holds for every junction, checked by walking through its cycles, not by the code under test. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { conflictingIntervals } from '../../shared/signals/conflicts.ts';
import { type PhaseAspect, type PlannedInterval, planIntervals } from '../../shared/signals/intervals.ts';
import type { JunctionPlan } from '../../shared/signals/plan.ts';
import { leastGreens, needs } from '../../shared/signals/runs.ts';
import { anyJunction } from './any-junction.ts';

const RUNS = { numRuns: 400 };

interface Green {
  readonly phase: number;
  readonly begin: number;
  readonly end: number;
}

/** Greens of three cycles laid end to end, those cut off at the ends left out. */
function greensOf(plan: JunctionPlan, intervals: readonly PlannedInterval[]): Green[] {
  const three = [...intervals, ...intervals, ...intervals];
  const greens: Green[] = [];
  plan.phases.forEach((_, phase) => {
    let now = 0;
    let begin: number | null = null;
    three.forEach(({ aspects, ms }, index) => {
      const green = aspects[phase] === 'green';
      if (green && index > 0 && three[index - 1]?.aspects[phase] !== 'green') begin = now;
      if (!green && begin !== null) {
        greens.push({ phase, begin, end: now });
        begin = null;
      }
      now += ms;
    });
  });
  return greens;
}

/** Every intergreen of the plan that a later green breaks, and every green under its minimum. */
function breaches(plan: JunctionPlan, intervals: readonly PlannedInterval[]): string[] {
  const greens = greensOf(plan, intervals);
  const short = greens.filter((it) => it.end - it.begin < (plan.phases[it.phase]?.minGreen ?? 0));
  const early = greens.flatMap((first) =>
    greens.filter((next) => {
      const required = plan.intergreens[first.phase]?.[next.phase];
      return required != null && next.begin >= first.end && next.begin - first.end < required;
    }),
  );
  return [...short.map((it) => `minimum ${it.phase}`), ...early.map((it) => `intergreen ${it.phase}`)];
}

function unmet(plan: JunctionPlan): number {
  return needs(plan).filter(
    (need) => need.stages.reduce((sum, stage) => sum + (plan.stages[stage]?.green ?? 0), 0) < need.ms,
  ).length;
}

describe('any junction', () => {
  it('never shows conflicting greens, nor green against amber', () => {
    fc.assert(
      fc.property(anyJunction, (plan) => {
        const intervals = planIntervals(plan);
        for (const { aspects } of intervals) {
          const moving = plan.phases
            .map((_, phase) => phase)
            .filter((phase) => ['green', 'amber'].includes(aspects[phase] ?? ''));
          for (const a of moving) {
            for (const b of moving) {
              if (plan.intergreens[a]?.[b] == null) continue;
              expect([aspects[a], aspects[b]]).toEqual(['amber', 'amber']);
            }
          }
        }
        expect(conflictingIntervals(plan, intervals)).toEqual([]);
      }),
      RUNS,
    );
  });

  it('gives green exactly when the binding intergreen is over', () => {
    fc.assert(
      fc.property(anyJunction, (plan) => {
        const intervals = planIntervals(plan);
        let now = 0;
        let ended = 0;
        let from = 0;
        const begins = new Map<number, number>();
        const check = (): void => {
          const to = (from + 1) % plan.stages.length;
          const [before, after] = [plan.stages[from]?.phases ?? [], plan.stages[to]?.phases ?? []];
          for (const phase of after.filter((it) => !before.includes(it))) {
            const leaving = before.filter((it) => !after.includes(it));
            const required = leaving.map((it) => plan.intergreens[it]?.[phase] ?? 0);
            expect((begins.get(phase) ?? now) - ended).toBe(
              Math.max(plan.phases[phase]?.redWithAmber ?? 0, ...required),
            );
          }
        };
        intervals.forEach((interval) => {
          if (interval.cause.is === 'stage' && interval.cause.stage > 0) check();
          if (interval.cause.is === 'stage') {
            from = interval.cause.stage;
            ended = now + interval.ms;
            begins.clear();
          }
          interval.aspects.forEach((aspect, phase) => {
            if (aspect === 'green' && !begins.has(phase) && interval.cause.is !== 'stage') begins.set(phase, now);
          });
          now += interval.ms;
        });
        check();
      }),
      RUNS,
    );
  });

  it('keeps every intergreen and minimum green, or says that the stages are too short', () => {
    let good = 0;
    fc.assert(
      fc.property(anyJunction, (plan) => {
        const broken = breaches(plan, planIntervals(plan));
        expect(broken.length > 0).toBe(unmet(plan) > 0);
        if (broken.length === 0) good++;
      }),
      RUNS,
    );
    expect(good).toBeGreaterThan(100);
  });

  it('keeps them with every green nudged down to its least', () => {
    fc.assert(
      fc.property(anyJunction, (plan) => {
        fc.pre(unmet(plan) === 0);
        const least = leastGreens(plan, 1000);
        const nudged = { ...plan, stages: plan.stages.map((stage, index) => ({ ...stage, green: least[index] ?? 0 })) };
        nudged.stages.forEach((stage, index) => {
          expect(stage.green).toBeLessThanOrEqual(plan.stages[index]?.green ?? 0);
        });
        expect(breaches(nudged, planIntervals(nudged))).toEqual([]);
      }),
      RUNS,
    );
  });

  it('goes through the aspects in order and ends where the first stage begins', () => {
    fc.assert(
      fc.property(anyJunction, (plan) => {
        const intervals = planIntervals(plan);
        intervals.forEach((interval, index) => {
          const next = intervals[(index + 1) % intervals.length];
          plan.phases.forEach((phase, at) => {
            const [a, b] = [interval.aspects[at], next?.aspects[at]];
            if (a !== b) expect(allowed(a, phase)).toContain(b);
          });
        });
      }),
      RUNS,
    );
  });

  it('has no two equal intervals next to each other within a change', () => {
    fc.assert(
      fc.property(anyJunction, (plan) => {
        const intervals = planIntervals(plan);
        intervals.forEach((interval, index) => {
          const next = intervals[index + 1];
          expect(interval.ms).toBeGreaterThan(0);
          if (next === undefined || interval.cause.is === 'stage' || next.cause.is === 'stage') return;
          expect(next.aspects).not.toEqual(interval.aspects);
        });
      }),
      RUNS,
    );
  });
});

function allowed(aspect: PhaseAspect | undefined, phase: { amber: number; redWithAmber: number }): PhaseAspect[] {
  if (aspect === 'red') return [phase.redWithAmber > 0 ? 'red-with-amber' : 'green'];
  if (aspect === 'green') return [phase.amber > 0 ? 'amber' : 'red'];
  return aspect === 'amber' ? ['red'] : ['green'];
}
