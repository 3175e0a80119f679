/** Direction indicators and hazard lamps. */
import { describe, expect, it } from 'vitest';
import type { Indicators } from '../../shared/layout/kinds/indicators.ts';
import { type IndicatorsWish, makeIndicators } from '../../shared/layout/templates/indicators.ts';
import { LAMPS } from '../../shared/practice/lamps.ts';
import { detect } from '../interpreter/acts.ts';
import { boardOf, lampFilm, told } from './lamp-film.ts';

const ALL = { left: 'left', right: 'right', hazard: 'hazard' };
const INPUTS = ['left', 'right', 'hazard'];

function taxi(wish: Partial<IndicatorsWish> = {}, values: Partial<Indicators> = {}): Indicators {
  return { ...makeIndicators({ id: 'taxi', name: 'Taxi', board: 'b', left: 'D2', right: 'D3', ...wish }), ...values };
}

/** Flashes a minute of a run of 60 s: how often the lamp at `place` came on. */
function rate(lines: readonly string[], place: number): number {
  const lit = lines.map((line) => line.split(' ')[1]?.charAt(place) !== '.');
  return lit.filter((isLit, index) => isLit && !lit[index - 1]).length;
}

describe('the rhythm (UK MOT manual 1.5: 60 to 120 flashes a minute)', () => {
  it('lies within the rule by default', () => {
    const [least, greatest] = LAMPS.indicatorRate.perMinute.value;
    expect([least, greatest]).toEqual([60, 120]);
    const flashes = rate(lampFilm(boardOf([taxi()]), 60_000), 0);
    expect(flashes).toBeGreaterThanOrEqual(least);
    expect(flashes).toBeLessThanOrEqual(greatest);
  });

  it('at the ends of the rule nothing is said, beyond them it is', () => {
    expect(told([taxi({}, { on: 0.5, off: 0.5 })])).toEqual([]);
    expect(told([taxi({}, { on: 0.25, off: 0.25 })])).toEqual([]);
    expect(told([taxi({}, { on: 0.5, off: 0.51 })])).toEqual(['warning flash-rate sites[0]']);
    expect(told([taxi({}, { on: 0.24, off: 0.25 })])).toEqual(['warning flash-rate sites[0]']);
  });
});

describe('by switches', () => {
  const board = boardOf([taxi({ switches: ALL })], { inputs: INPUTS });

  it('flash left, both, right, without a break in the rhythm', () => {
    const acts = [...detect(1000, 4500, 0), ...detect(3000, 5500, 1)].sort(([a], [b]) => a - b);
    expect(lampFilm(board, 6000, acts)).toEqual([
      '1020 A.',
      '1360 ..',
      '1700 A.',
      '2040 ..',
      '2380 A.',
      '2720 ..',
      '3060 AA',
      '3400 ..',
      '3740 AA',
      '4080 ..',
      '4420 AA',
      '4520 .A',
      '4760 ..',
      '5100 .A',
      '5440 ..',
    ]);
  });

  it('hazard goes before left and right', () => {
    const acts = [...detect(1000, 4000, 2), ...detect(2000, 5500, 0)].sort(([a], [b]) => a - b);
    expect(lampFilm(board, 5500, acts)).toEqual([
      '1020 AA',
      '1360 ..',
      '1700 AA',
      '2040 ..',
      '2380 AA',
      '2720 ..',
      '3060 AA',
      '3400 ..',
      '3740 AA',
      '4020 A.',
      '4080 ..',
      '4420 A.',
      '4760 ..',
      '5100 A.',
      '5440 ..',
    ]);
  });

  it('one switch is enough, and its lamps are dark while it is off', () => {
    const one = boardOf([taxi({ switches: { hazard: 'hazard' } })], { inputs: ['hazard'] });
    expect(lampFilm(one, 5000, detect(1000, 1500, 0))).toEqual(['1020 AA', '1360 ..']);
    const left = boardOf([taxi({ switches: { left: 'left' }, left: 'D2' }, {})], { inputs: ['left'] }, [
      'aspect-never-shown',
    ]);
    expect(lampFilm(left, 5000, detect(1000, 1500, 0))).toEqual(['1020 A.', '1360 ..']);
  });
});

it('without switches one side flashes for ever', () => {
  const board = boardOf([taxi({}, { shows: 'right' })], {}, ['aspect-never-shown']);
  expect(lampFilm(board, 1100)).toEqual(['1 .A', '341 ..', '681 .A', '1021 ..']);
});

describe('what is wrong is said', () => {
  it('lamps that can never flash, and a side without lamps', () => {
    expect(told([taxi({ switches: { left: 'left' } })], { inputs: INPUTS })).toEqual([
      'warning aspect-never-shown sites[0].lamps[1]',
    ]);
    const { lamps } = makeIndicators({ id: 'x', name: 'X', board: 'b', left: 'D2' });
    expect(told([taxi({ switches: ALL }, { lamps })], { inputs: INPUTS })).toEqual([
      'warning missing-lamp sites[0].lamps',
    ]);
  });

  it('one input that asks for two things, and one that is not there', () => {
    expect(told([taxi({ switches: { left: 'left', hazard: 'left' } })], { inputs: INPUTS })).toEqual([
      'error switch-twice sites[0].switches.hazard',
    ]);
    expect(told([taxi({ switches: { hazard: 'nowhere' } })])).toEqual(['error unknown-input sites[0].switches.hazard']);
  });

  it('values that nothing uses', () => {
    expect(told([taxi({ switches: ALL }, { shows: 'left' })], { inputs: INPUTS })).toEqual([
      'warning not-used sites[0].shows',
    ]);
    expect(told([taxi({ switches: {} })])).toEqual(['warning not-used sites[0].switches']);
  });
});
