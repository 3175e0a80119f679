/** Webster's cycle, splits and delay against published worked examples, each with all its inputs. */
import { describe, expect, it } from 'vitest';
import { delay } from '../../shared/signals/flows/delay.ts';
import { effectiveGreens, optimumCycle, practicalCycle, webster } from '../../shared/signals/flows/webster.ts';

/** One stream a stage. */
function solve(flows: readonly number[], saturations: readonly number[], lostTime: number) {
  const stages = flows.map((flow, index) => ({
    name: `stage ${index + 1}`,
    streams: [{ flow, saturation: saturations[index] ?? 0 }],
  }));
  const { result, findings } = webster(stages, lostTime, 'stages');
  if (result === null) throw new Error(JSON.stringify(findings));
  return result;
}

const toHalf = (seconds: number): number => Math.round(seconds * 2) / 2;

describe('optimum cycle and effective greens', () => {
  it('W1, GATE-style example: flows 400 and 250, saturation 1250 and 1000, L 16: Y 0.57, C 67.5 s, greens 29 and 22.5', () => {
    const { total, optimum, ratios } = solve([400, 250], [1250, 1000], 16);
    expect(total).toBeCloseTo(0.57, 9);
    // Printed to the half second.
    expect(toHalf(optimum)).toBe(67.5);
    expect(effectiveGreens(ratios, 67.5, 16).map(toHalf)).toEqual([29, 22.5]);
  });

  it('W2, GATE 2016 set II: y 0.30, 0.25, 0.25, L 10: C 100 s, greens 34, 28, 28', () => {
    const ratios = [0.3, 0.25, 0.25];
    expect(optimumCycle(10, 0.8)).toBeCloseTo(100, 9);
    expect(effectiveGreens(ratios, 100, 10).map(Math.round)).toEqual([34, 28, 28]);
  });

  it('W3, textbook example: flows 500 and 300, saturation 1600, L 16: C 58 s', () => {
    expect(solve([500, 300], [1600, 1600], 16).optimum).toBeCloseTo(58, 9);
  });

  it('W4, textbook example: flows 1000 and 900, saturation 2500 and 3000, L 12: C 77 s', () => {
    expect(Math.round(solve([1000, 900], [2500, 3000], 12).optimum)).toBe(77);
  });

  it('W5, Rogers, Highway Engineering, ex. 5.6 p. 142: y 0.25, 0.25, 0.22, three times 4 s lost: Y 0.72, C 82 s', () => {
    // As flows of 100 that could leave, so that the busiest of two streams counts.
    const stages = [
      { name: '1', streams: [{ flow: 25, saturation: 100 }] },
      {
        name: '2',
        streams: [
          { flow: 20, saturation: 100 },
          { flow: 25, saturation: 100 },
        ],
      },
      { name: '3', streams: [{ flow: 22, saturation: 100 }] },
    ];
    const { result } = webster(stages, 3 * 4, 'stages');
    expect(result?.total).toBeCloseTo(0.72, 9);
    expect(Math.round(result?.optimum ?? 0)).toBe(82);
  });

  it('practical cycles are 45 to 120 s (course text DCC3113 p. 121)', () => {
    expect([20, 67.5, 400, Number.POSITIVE_INFINITY].map(practicalCycle)).toEqual([45, 67.5, 120, 120]);
  });
});

describe('delay', () => {
  it('textbook example: 20 vehicles a minute come, 50 could leave, red 30 s, green 30 s, C 60 s: 12.5 s', () => {
    const found = delay({ flow: 20 * 60, saturation: 50 * 60 }, 60, 30);
    expect(found?.uniform).toBeCloseTo(12.5, 9);
  });

  it('has its least where the optimum cycle is: two formulas that know nothing of each other agree', () => {
    // W1 to W4 as junctions; the optimum is an approximation, so within its flat range of 0.75 to 1.5 (DCC3113 p. 121).
    const junctions: [number[], number[], number][] = [
      [[400, 250], [1250, 1000], 16],
      [[300, 250, 250], [1000, 1000, 1000], 10],
      [[500, 300], [1600, 1600], 16],
      [[1000, 900], [2500, 3000], 12],
    ];
    for (const [flows, saturations, lostTime] of junctions) {
      const { optimum, ratios } = solve(flows, saturations, lostTime);
      const average = (cycle: number): number => {
        const greens = effectiveGreens(ratios, cycle, lostTime);
        const total = flows.reduce((sum, flow, index) => {
          const found = delay({ flow, saturation: saturations[index] ?? 0 }, cycle, greens[index] ?? 0);
          return sum + flow * (found?.total ?? Number.POSITIVE_INFINITY);
        }, 0);
        return total / flows.reduce((sum, flow) => sum + flow, 0);
      };
      const cycles = Array.from({ length: 200 }, (_, index) => (optimum * (index + 40)) / 100);
      const best = cycles.reduce((one, other) => (average(other) < average(one) ? other : one));
      expect(best / optimum).toBeGreaterThan(0.75);
      expect(best / optimum).toBeLessThan(1.5);
      // Flat: at the ends of that range at most a third more, where half the optimum costs more than that.
      for (const factor of [0.75, 1, 1.5]) expect(average(optimum * factor) / average(best)).toBeLessThan(4 / 3);
      expect(average(optimum / 2) / average(best)).toBeGreaterThan(4 / 3);
    }
  });
});
