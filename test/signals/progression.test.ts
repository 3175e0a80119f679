/** The search for offsets against trying all of them, and what the chart is told. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { bandsOf } from '../../shared/signals/progression/bands.ts';
import { type Search, searchOffsets, worthOf } from '../../shared/signals/progression/search.ts';
import { checkStreet, type Street } from '../../shared/signals/progression/street.ts';
import { timeDistance } from '../../shared/signals/progression/time-distance.ts';
import { seededDice } from '../fixtures/dice.ts';

/** At 10 m/s; greens as `[start, length]`, the same both ways unless there are two. */
function street(
  cycle: number,
  stops: readonly { at: number; greens: readonly (readonly [number, number])[] }[],
): Street {
  return {
    name: 'Fore Street',
    cycle,
    speed: { out: 10, back: 10 },
    stops: stops.map(({ at, greens: [out = [0, 1], back = out] }, index) => ({
      id: 'abcdef'[index] ?? '',
      name: `Junction ${index + 1}`,
      distance: at,
      out: { start: out[0], length: out[1] },
      back: { start: back[0], length: back[1] },
    })),
  };
}

const same = (cycle: number, green: number, ...at: number[]): Street =>
  street(
    cycle,
    at.map((distance) => ({ at: distance, greens: [[0, green]] })),
  );

describe('bands', () => {
  test('a wave one way: each green begins when the traffic arrives', () => {
    const wave = searchOffsets(same(60, 25, 0, 200, 330), { weights: { out: 1, back: 0 } });
    expect(wave.offsets).toEqual([0, 20, 33]);
    expect(wave.out).toEqual({ start: 0, width: 25, efficiency: 25 / 60 });
  });

  test('half a cycle apart both directions get the whole green', () => {
    const wave = searchOffsets(same(60, 25, 0, 300, 600));
    expect([wave.out.width, wave.back.width]).toEqual([25, 25]);
    expect(wave.offsets).toEqual([0, 30, 0]);
  });

  test('a weight turns the scale: the busier direction keeps its whole band', () => {
    const example = same(60, 25, 0, 200, 330);
    const { out, back } = searchOffsets(example, { weights: { out: 2, back: 1 }, aim: 'sum' });
    expect(out.width).toBe(25);
    const turned = searchOffsets(example, { weights: { out: 1, back: 2 }, aim: 'sum' });
    expect([turned.out.width, turned.back.width]).toEqual([back.width, 25]);
  });

  test('the sum may leave one direction nothing; the balance does not', () => {
    const example = same(60, 18, 0, 55, 140);
    const sum = searchOffsets(example, { aim: 'sum' });
    const balance = searchOffsets(example);
    expect([sum.out.width, sum.back.width]).toEqual([18, 0]);
    // The ends are 14 s apart, so two greens of 18 s less there and back leave 8 s to share.
    expect([balance.out.width, balance.back.width]).toEqual([4, 4]);
  });

  test('no band is told as none', () => {
    // Both greens over before the traffic of the other end arrives.
    const { out, back } = bandsOf(same(60, 10, 0, 300), [0, 0]);
    expect([out, back]).toEqual([
      { start: 0, width: 0, efficiency: 0 },
      { start: 0, width: 0, efficiency: 0 },
    ]);
  });

  test('a junction that is always green along the street holds nothing up', () => {
    const wave = searchOffsets(
      street(60, [
        { at: 0, greens: [[5, 20]] },
        { at: 170, greens: [[0, 60]] },
        { at: 260, greens: [[5, 20]] },
      ]),
      { weights: { out: 1, back: 0 } },
    );
    expect(wave.out.width).toBe(20);
    expect(searchOffsets(same(60, 60, 0, 170)).out).toEqual({ start: 0, width: 60, efficiency: 1 });
  });

  test('greens of the two directions may differ', () => {
    const wave = searchOffsets(
      street(60, [
        {
          at: 0,
          greens: [
            [0, 30],
            [5, 20],
          ],
        },
        {
          at: 300,
          greens: [
            [10, 20],
            [0, 30],
          ],
        },
      ]),
    );
    expect([wave.out.width, wave.back.width]).toEqual([20, 20]);
  });
});

/** The best worth by trying every offset, in whole seconds. */
function byTrying(example: Street, search: Search): readonly [number, number] {
  let best: readonly [number, number] = [-1, -1];
  const tryFrom = (offsets: number[]): void => {
    if (offsets.length < example.stops.length) {
      for (let offset = 0; offset < example.cycle; offset++) tryFrom([...offsets, offset]);
      return;
    }
    const { out, back } = bandsOf(example, offsets);
    const worth = worthOf(out.width, back.width, search);
    if (worth[0] > best[0] || (worth[0] === best[0] && worth[1] > best[1])) best = worth;
  };
  tryFrom([0]);
  return best;
}

describe('the search finds what trying every offset finds', () => {
  test.each([
    [2, 30],
    [3, 20],
    [4, 3],
  ])('%i junctions, %i streets', (count, streets) => {
    const dice = seededDice(count);
    for (let number = 0; number < streets; number++) {
      const cycle = dice.int(8, 16);
      const green = (): [number, number] => [
        dice.int(0, cycle - 1),
        dice.int(1, 8) === 1 ? cycle : dice.int(1, cycle - 1),
      ];
      let at = 0;
      const example = street(
        cycle,
        Array.from({ length: count }, () => {
          at += dice.int(1, 40) * 10;
          const out = green();
          return { at, greens: dice.int(0, 1) === 0 ? [out] : [out, green()] };
        }),
      );
      const weights = { out: dice.int(0, 3), back: dice.int(0, 3) };
      for (const aim of ['balance', 'sum'] as const) {
        const search = { weights, aim, step: 1 };
        const { out, back, offsets } = searchOffsets(example, search);
        const story = JSON.stringify({ example, search, offsets });
        expect(worthOf(out.width, back.width, search), story).toEqual(byTrying(example, search));
      }
    }
  });

  test('no single offset can be moved to something better, in tenths of a second', () => {
    const stop = fc.record({ gap: fc.integer({ min: 100, max: 6000 }), green: fc.integer({ min: 100, max: 500 }) });
    fc.assert(
      fc.property(
        fc.array(stop, { minLength: 2, maxLength: 8 }),
        fc.integer({ min: -300, max: 300 }),
        fc.nat(7),
        (list, move, which) => {
          let at = 0;
          const example = street(
            60,
            list.map(({ gap, green }) => {
              at += gap / 10;
              return { at: Math.round(at), greens: [[0, green / 10]] as const };
            }),
          );
          const { out, back, offsets } = searchOffsets(example, { aim: 'sum' });
          const moved = offsets.map((offset, index) => (index === which % list.length ? offset + move / 10 : offset));
          const other = bandsOf(example, moved);
          expect(other.out.width + other.back.width).toBeLessThanOrEqual(out.width + back.width + 1e-9);
          for (const offset of offsets) expect(Math.abs(offset * 10 - Math.round(offset * 10))).toBeLessThan(1e-9);
        },
      ),
      { numRuns: 100 },
    );
  });
});

describe('what cannot be co-ordinated', () => {
  const good = same(60, 25, 0, 200);
  test.each([
    ['one junction', { ...good, stops: good.stops.slice(0, 1) }, 'street-too-short'],
    ['a cycle of nothing', { ...good, cycle: 0 }, 'bad-cycle'],
    ['a cycle that is no number', { ...good, cycle: Number.NaN }, 'bad-cycle'],
    ['traffic that stands', { ...good, speed: { out: 10, back: 0 } }, 'bad-speed'],
    ['endless speed', { ...good, speed: { out: Number.POSITIVE_INFINITY, back: 1 } }, 'bad-speed'],
    ['two junctions at one place', same(60, 25, 100, 100), 'out-of-order'],
    ['a junction before the one before it', same(60, 25, 100, 50), 'out-of-order'],
    ['a green longer than the cycle', same(60, 61, 0, 100), 'no-green-along'],
    ['no green', same(60, 0, 0, 100), 'no-green-along'],
  ] as const)('%s', (_, example, code) => {
    expect(checkStreet(example).map((finding) => finding.code)).toContain(code);
  });

  test('a good street has no findings', () => expect(checkStreet(good)).toEqual([]));
});

describe('time-distance chart', () => {
  const example = same(60, 25, 0, 200);
  const wave = { offsets: [0, 50], ...bandsOf(example, [0, 50]) };
  const chart = timeDistance(example, wave, 1);

  test('has the junctions at their places with their greens, cut at the edges', () => {
    expect(chart).toMatchObject({ name: 'Fore Street', cycle: 60, span: 60, length: 200 });
    expect(chart.stops).toEqual([
      {
        id: 'a',
        name: 'Junction 1',
        distance: 0,
        offset: 0,
        greens: { out: [{ from: 0, to: 25 }], back: [{ from: 0, to: 25 }] },
      },
      {
        id: 'b',
        name: 'Junction 2',
        distance: 200,
        offset: 50,
        greens: {
          out: [
            { from: 0, to: 15 },
            { from: 50, to: 60 },
          ],
          back: [
            { from: 0, to: 15 },
            { from: 50, to: 60 },
          ],
        },
      },
    ]);
  });

  test('has a parallelogram for each band that shows, in its direction', () => {
    // Outward traffic of the green 0 to 25 arrives at 20 to 45, while the second junction is red.
    expect(wave.out.width).toBe(0);
    expect(wave.back).toEqual({ start: 50, width: 15, efficiency: 0.25 });
    expect(chart.bands).toEqual([
      {
        direction: 'back',
        width: 15,
        corners: [
          { time: -10, distance: 200 },
          { time: 10, distance: 0 },
          { time: 25, distance: 0 },
          { time: 5, distance: 200 },
        ],
      },
      {
        direction: 'back',
        width: 15,
        corners: [
          { time: 50, distance: 200 },
          { time: 70, distance: 0 },
          { time: 85, distance: 0 },
          { time: 65, distance: 200 },
        ],
      },
    ]);
  });

  test('every vehicle in a band finds green at every junction', () => {
    const dice = seededDice(7);
    for (let number = 0; number < 40; number++) {
      const places = Array.from({ length: dice.int(2, 6) }, (_, index) => index * 150 + dice.int(0, 140));
      const row = same(60, dice.int(15, 45), ...places);
      const found = searchOffsets(row);
      const { stops, bands } = timeDistance(row, found, 4);
      expect(bands.length).toBeGreaterThan(0);
      for (const { direction, corners } of bands) {
        const [begin, end] = corners;
        for (const { distance, greens } of stops) {
          const share = (distance - begin.distance) / (end.distance - begin.distance);
          const arrival = begin.time + share * (end.time - begin.time);
          const leaves = arrival + (corners[3].time - begin.time);
          // Only where the chart shows all of it.
          if (arrival < 0 || leaves > 240) continue;
          const inside = greens[direction].some(({ from, to }) => from <= arrival + 2e-3 && leaves <= to + 2e-3);
          expect(inside, JSON.stringify({ direction, arrival, leaves, distance })).toBe(true);
        }
      }
    }
  });
});
