/** Fire and welding: no rhythm, never the same twice in a row, the same on every board. */
import { describe, expect, it } from 'vitest';
import { traceTable } from '../../shared/interpreter/trace.ts';
import type { Flicker } from '../../shared/layout/kinds/flicker.ts';
import { type FlickerWish, makeFlicker } from '../../shared/layout/templates/flicker.ts';
import { detect } from '../interpreter/acts.ts';
import { boardOf, lampFilm, told } from './lamp-film.ts';

const bonfire = (wish: Partial<FlickerWish> = {}, values: Partial<Flicker> = {}): Flicker => ({
  ...makeFlicker({ id: 'f', name: 'Bonfire', board: 'b', effect: 'fire', pins: ['D2', 'D3', 'D4'], ...wish }),
  ...values,
});
const welder = (wish: Partial<FlickerWish> = {}, values: Partial<Flicker> = {}): Flicker => ({
  ...makeFlicker({ id: 'w', name: 'Boatyard', board: 'b', effect: 'welding', pins: ['D5'], ...wish }),
  ...values,
});

describe('a fire', () => {
  it('has a red, an amber and a yellow lamp', () => {
    expect(boardOf([bonfire()]).sites[0]?.lamps.map((lamp) => lamp.colour)).toEqual(['red', 'amber', 'yellow']);
  });

  it('begins with the draws of its seed', () => {
    // D30F and F1A5 of 30 to 250 ms: 210 and 240 ms; then 1734, whose upper byte 23 is below 96: it falls back.
    expect(lampFilm(boardOf([bonfire()]), 500).slice(0, 3)).toEqual(['1 R..', '210 RA.', '450 R..']);
  });

  it('shows each of its pictures, each for 30 to 250 ms, and never goes out', () => {
    const lines = lampFilm(boardOf([bonfire()]), 120_000).map((line) => line.split(' '));
    expect(new Set(lines.map(([, lit]) => lit))).toEqual(new Set(['R..', 'RA.', 'RAY', '.A.']));
    const spans = lines.slice(2).map(([ms], index) => Number(ms) - Number(lines[index + 1]?.[0]));
    expect(Math.min(...spans)).toBeGreaterThanOrEqual(30);
    expect(Math.max(...spans)).toBeLessThanOrEqual(250);
    // Falls back to the embers about 96 times in 256 turns.
    const leaps = lines.filter(([, lit], index) => lit === 'RA.' && index + 1 < lines.length);
    const falls = lines.filter(([, lit], index) => lit === 'R..' && lines[index - 1]?.[1] === 'RA.');
    expect(falls.length / leaps.length).toBeGreaterThan(0.28);
    expect(falls.length / leaps.length).toBeLessThan(0.47);
  });

  it('any number of lamps takes part', () => {
    for (const count of [1, 2, 4, 7]) {
      const pins = Array.from({ length: count }, (_, index) => `D${index + 2}`);
      const edges = traceTable(boardOf([bonfire({ pins })]).table, 20_000);
      expect(new Set(edges.map((edge) => edge.lamp)).size).toBe(count);
    }
  });
});

describe('a welder', () => {
  it('works in bursts with rests of 2 to 9 s', () => {
    const lines = lampFilm(boardOf([welder()]), 600_000).map((line) => line.split(' '));
    const spans = lines.slice(2).map(([ms], index) => ({
      lit: lines[index + 1]?.[1] === 'W',
      ms: Number(ms) - Number(lines[index + 1]?.[0]),
    }));
    const arcs = spans.filter((it) => it.lit).map((it) => it.ms);
    expect(Math.min(...arcs)).toBeGreaterThanOrEqual(20);
    expect(Math.max(...arcs)).toBeLessThanOrEqual(90);
    const dark = spans.filter((it) => !it.lit).map((it) => it.ms);
    // Between two arcs of a burst up to 90 ms; a rest comes after the last of these.
    const rests = dark.filter((ms) => ms > 90);
    expect(rests.length).toBeGreaterThan(50);
    expect(Math.min(...rests)).toBeGreaterThanOrEqual(2020);
    expect(Math.max(...rests)).toBeLessThanOrEqual(9090);
    // One arc in eight is the last of its burst.
    expect(arcs.length / rests.length).toBeGreaterThan(5);
    expect(arcs.length / rests.length).toBeLessThan(12);
  });

  it('two welders do not work in step', () => {
    const board = boardOf([welder(), welder({ id: 'v', pins: ['D6'] })]);
    expect(board.table.programs).toHaveLength(1);
    const edges = traceTable(board.table, 60_000);
    const times = (lamp: number) => new Set(edges.filter((edge) => edge.lamp === lamp && edge.lit).map((it) => it.ms));
    const shared = [...times(0)].filter((ms) => times(1).has(ms));
    expect(times(0).size).toBeGreaterThan(30);
    expect(shared.length).toBeLessThan(times(0).size / 4);
  });
});

describe('by a switch', () => {
  it.each([bonfire({ switch: 's' }), welder({ switch: 's' })])('$effect burns only while it is on', (site) => {
    const board = boardOf([site], { inputs: ['s'] });
    const lines = lampFilm(board, 60_000, detect(2000, 20_000, 0));
    expect(lines[0]?.startsWith('2020 ')).toBe(true);
    const [at, lit] = lines.at(-1)?.split(' ') ?? [];
    expect(lit?.replaceAll('.', '')).toBe('');
    // At the latest when the turn of the fire or the burst is over.
    expect(Number(at)).toBeLessThan(24_000);
    expect(lines.length).toBeGreaterThan(10);
  });
});

describe('what is wrong is said', () => {
  it('a rest of a fire, times the wrong way round, a switch that is not there', () => {
    expect(told([bonfire({}, { rest: { longest: 5 } })])).toEqual(['warning not-used sites[0].rest']);
    expect(told([welder({}, { moments: { shortest: 0.2, longest: 0.1 } })])).toEqual([
      'warning between-swapped sites[0].moments',
    ]);
    expect(told([welder({}, { rest: { shortest: 8, longest: 5 } })])).toEqual([
      'warning between-swapped sites[0].rest',
    ]);
    expect(told([welder({ switch: 's' })])).toEqual(['error unknown-input sites[0].switch']);
    expect(told([welder({}, { moments: { longest: 5 } })])).toEqual([
      'error time-outside-limits sites[0].moments.longest',
    ]);
  });
});
