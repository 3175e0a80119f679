import { describe, expect, it } from 'vitest';
import { drawnTime, Generator } from '../../shared/interpreter/generator.ts';
import { GroupClock } from '../../shared/interpreter/group-clock.ts';
import { Inputs } from '../../shared/interpreter/inputs.ts';
import { input } from '../fixtures/sites/build.ts';

function buttons(...debounces: number[]) {
  const demands: number[] = [];
  const inputs = new Inputs(
    debounces.map((debounce) => input('button', { debounce })),
    (number) => demands.push(number),
  );
  return { inputs, demands };
}

describe('debounce', () => {
  it('accepts a level in the tick in which it has differed for so many ticks', () => {
    const { inputs } = buttons(0, 1, 3);
    for (const number of [0, 1, 2]) inputs.setRaw(number, true);
    const levels: boolean[][] = [];
    for (let tick = 0; tick < 3; tick += 1) {
      inputs.tick();
      levels.push(inputs.levels);
    }
    expect(levels).toEqual([
      [true, true, false],
      [true, true, false],
      [true, true, true],
    ]);
  });

  it('counts anew after a bounce', () => {
    const { inputs } = buttons(3);
    for (const raw of [true, true, false, true, true]) {
      inputs.setRaw(0, raw);
      inputs.tick();
    }
    expect(inputs.level(0)).toBe(false);
    inputs.tick();
    expect(inputs.level(0)).toBe(true);
  });
});

describe('demands', () => {
  it('are latched once and stay after the level has gone', () => {
    const { inputs, demands } = buttons(0);
    inputs.setRaw(0, true);
    inputs.tick();
    inputs.tick();
    inputs.setRaw(0, false);
    inputs.tick();
    expect([inputs.demand(0), demands]).toEqual([true, [0]]);
  });

  it('that are cleared while the level is active come back in the next tick', () => {
    const { inputs, demands } = buttons(0);
    inputs.setRaw(0, true);
    inputs.tick();
    inputs.clear(0);
    expect(inputs.demand(0)).toBe(false);
    inputs.tick();
    expect([inputs.demand(0), demands]).toEqual([true, [0, 0]]);
  });

  it('of an input that is not bound do not exist', () => {
    const { inputs, demands } = buttons(0);
    inputs.latch(null);
    expect([inputs.demand(null), inputs.level(null), demands]).toEqual([false, false, []]);
  });
});

it('an override by the host covers the accepted level, which goes on beneath', () => {
  const { inputs } = buttons(2);
  inputs.press(0, 'off');
  inputs.setRaw(0, true);
  inputs.tick();
  inputs.tick();
  expect(inputs.level(0)).toBe(false);
  inputs.press(0, 'auto');
  inputs.tick();
  expect([inputs.level(0), inputs.rose(0)]).toEqual([true, true]);
});

describe('a common cycle', () => {
  /** Runs a cycle of 1,000 ms to a time, then a tick with or without a pulse; the offsets passed in it. */
  function passed(time: number, pulse: number | null, offsets: readonly number[]): number[] {
    const clock = new GroupClock(1000);
    for (let tick = 0; tick <= time; tick += 1) clock.tick(null);
    clock.tick(pulse);
    return offsets.filter((offset) => clock.passed(offset));
  }

  it('begins in its first tick, which passes 0 and everything beyond the cycle', () => {
    const clock = new GroupClock(1000);
    clock.tick(null);
    expect(clock.time).toBe(0);
    expect([0, 10, 990, 1000, 5000].filter((offset) => clock.passed(offset))).toEqual([0, 1000, 5000]);
  });

  it('passes one offset a tick', () => {
    expect(passed(499, null, [0, 490, 500, 510])).toEqual([500]);
    expect(passed(999, null, [0, 10, 990, 1000])).toEqual([0, 1000]);
  });

  it('a pulse late in the cycle passes all that was left of it', () => {
    expect(passed(960, 20, [0, 10, 20, 30, 950, 960, 970, 990, 1000])).toEqual([0, 10, 20, 970, 990, 1000]);
    expect(passed(500, 0, [0, 490, 500, 510])).toEqual([0, 510]);
  });

  it('a pulse early in the cycle steps back and passes nothing', () => {
    expect(passed(499, 0, [0, 490, 500, 510, 1000])).toEqual([]);
    expect(passed(20, 20, [10, 20, 30])).toEqual([]);
  });

  it('a pulse that steps forward passes what lies between', () => {
    expect(passed(5, 20, [0, 10, 20, 30])).toEqual([10, 20]);
  });

  it('that is shortened below its time begins anew', () => {
    const clock = new GroupClock(1000);
    for (let tick = 0; tick <= 700; tick += 1) clock.tick(null);
    clock.cycle = 600;
    clock.tick(null);
    expect([clock.time, clock.passed(650), clock.passed(0)]).toEqual([0, true, true]);
  });

  it('passes nothing while it stands', () => {
    const clock = new GroupClock(1000);
    clock.tick(null);
    clock.stand();
    expect([clock.time, clock.passed(0)]).toEqual([0, false]);
  });
});

describe('the generator', () => {
  it('gives the numbers of its recipe', () => {
    // Worked out with pencil and program: seeds ACE1, and ACE1 XOR 9E37 for site 1.
    const draws = (where: number) => {
      const generator = new Generator(where);
      return [1, 2, 3].map(() => generator.next().toString(16));
    };
    expect(draws(0)).toEqual(['d30f', 'f1a5', '1734']);
    expect(draws(1)).toEqual(['a3fa', '8bd5', '465']);
  });

  it('reaches every number but zero before it repeats', () => {
    const generator = new Generator(0);
    const seen = new Set(Array.from({ length: 65_535 }, () => generator.next()));
    expect([seen.size, seen.has(0)]).toEqual([65_535, false]);
  });

  it('draws evenly from low to high, both included', () => {
    const times = Array.from({ length: 65_536 }, (_, draw) => drawnTime(draw, 100, 400));
    expect([Math.min(...times), Math.max(...times), times.every((ms) => ms % 10 === 0)]).toEqual([100, 400, true]);
    const shares = [100, 250, 400].map((ms) => times.filter((time) => time === ms).length);
    for (const share of shares) expect(Math.abs(share - 65_536 / 31)).toBeLessThan(1);
  });

  it('takes the low time when the two are the wrong way round, and spans of nine hours', () => {
    expect(drawnTime(65_535, 500, 100)).toBe(500);
    expect(drawnTime(65_535, 0, 32_767_000)).toBe(655_350);
  });
});
