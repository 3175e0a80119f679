/** Random junctions whose stages hold no conflicting phases. */
import fc from 'fast-check';
import type { JunctionPlan } from '../../shared/signals/plan.ts';

const tenths = (least: number, greatest: number) => fc.integer({ min: least, max: greatest }).map((it) => it * 100);

/** Two to six phases, two to five stages, any conflicts, UK or USA changes; times in ms. */
export const anyJunction: fc.Arbitrary<JunctionPlan> = fc
  .record({
    count: fc.integer({ min: 2, max: 6 }),
    amber: fc.constantFrom(3000, 4000),
    redWithAmber: fc.constantFrom(2000, 1000, 0),
    conflicts: fc.array(fc.boolean(), { minLength: 15, maxLength: 15 }),
    /** Beyond amber and red with amber. */
    extra: fc.array(fc.oneof(fc.constant(0), tenths(0, 120)), { minLength: 36, maxLength: 36 }),
    /** Orders in which phases ask for a place in each stage. */
    asking: fc.array(fc.array(fc.nat(5), { minLength: 1, maxLength: 6 }), { minLength: 2, maxLength: 5 }),
    greens: fc.array(tenths(70, 400), { minLength: 5, maxLength: 5 }),
    minGreens: fc.array(tenths(10, 100), { minLength: 6, maxLength: 6 }),
    arrows: fc.array(fc.integer({ min: 0, max: 9 }), { minLength: 6, maxLength: 6 }),
  })
  .map((it) => {
    const numbers = Array.from({ length: it.count }, (_, index) => index);
    const declared = (a: number, b: number): boolean => {
      const [low, high] = a < b ? [a, b] : [b, a];
      return a !== b && (it.conflicts[(high * (high - 1)) / 2 + low] ?? false);
    };
    const stages = it.asking.map((asking, index) => {
      const phases: number[] = [];
      for (const phase of asking) {
        if (phase < it.count && !phases.includes(phase) && !phases.some((other) => declared(phase, other)))
          phases.push(phase);
      }
      if (phases.length === 0) phases.push(0);
      return {
        id: String(index + 1),
        name: `stage ${index + 1}`,
        phases: phases.sort((a, b) => a - b),
        green: it.greens[index] ?? 10000,
      };
    });
    const phases = numbers.map((index) => {
      const arrow = it.arrows[index] === 0;
      return {
        id: `P${index}`,
        name: `P${index}`,
        minGreen: it.minGreens[index] ?? 7000,
        amber: arrow ? 0 : it.amber,
        redWithAmber: arrow ? 0 : it.redWithAmber,
      };
    });
    const apart = (a: number, b: number): boolean =>
      !stages.some((stage) => stage.phases.includes(a) && stage.phases.includes(b));
    const intergreens = numbers.map((from) =>
      numbers.map((to) => {
        if (from === to || !(declared(from, to) || apart(from, to))) return null;
        return it.amber + it.redWithAmber + (it.extra[from * 6 + to] ?? 0);
      }),
    );
    return { phases, stages, intergreens };
  });
