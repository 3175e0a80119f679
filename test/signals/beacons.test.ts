/** Beacons of emergency and works vehicles: 2 to 4 Hz (UNECE R65, as guides quote it). */
import { describe, expect, it } from 'vitest';
import type { Beacons } from '../../shared/layout/kinds/beacons.ts';
import { type BeaconsWish, makeBeacons } from '../../shared/layout/templates/beacons.ts';
import { LAMPS } from '../../shared/practice/lamps.ts';
import { detect } from '../interpreter/acts.ts';
import { boardOf, lampFilm, told } from './lamp-film.ts';

function engine(wish: Partial<BeaconsWish> = {}, values: Partial<Beacons> = {}): Beacons {
  return { ...makeBeacons({ id: 'e', name: 'Fire engine', board: 'b', pins: ['D2', 'D3'], ...wish }), ...values };
}

describe('flash rate', () => {
  it('each kind of flash is within the rule by default', () => {
    expect(LAMPS.emergencyRate.perMinute.value).toEqual([120, 240]);
    for (const flash of ['together', 'alternate', 'double', 'double-together'] as const) {
      expect(told([engine({ flash })])).toEqual([]);
      const lines = lampFilm(boardOf([engine({ flash })]), 60_000);
      const lit = lines.map((line) => line.split(' ')[1]?.charAt(0) === 'B');
      const flashes = lit.filter((isLit, index) => isLit && !lit[index - 1]).length;
      // Two flashes make one double flash.
      const rate = flash.startsWith('double') ? flashes / 2 : flashes;
      expect(rate).toBeGreaterThanOrEqual(120);
      expect(rate).toBeLessThanOrEqual(240);
    }
  });

  it('at the ends of the rule nothing is said, beyond them it is', () => {
    expect(told([engine({}, { on: 0.25, off: 0.25 })])).toEqual([]);
    expect(told([engine({}, { on: 0.12, off: 0.13 })])).toEqual([]);
    expect(told([engine({}, { on: 0.25, off: 0.26 })])).toEqual(['warning flash-rate sites[0]']);
    expect(told([engine({}, { on: 0.12, off: 0.12 })])).toEqual(['warning flash-rate sites[0]']);
    // Twice 3 flashes of 60 ms and a pause of 80 ms: 520 ms, under 2 Hz.
    expect(told([engine({ flash: 'double' }, { on: 0.06, pause: 0.08 })])).toEqual(['warning flash-rate sites[0]']);
  });
});

describe('what they do', () => {
  it('alternate: one side lit while the other is dark', () => {
    expect(lampFilm(boardOf([engine()]), 700)).toEqual(['1 B.', '161 .B', '331 B.', '491 .B', '661 B.']);
  });

  it('together: both lit, both dark', () => {
    expect(lampFilm(boardOf([engine({ flash: 'together' })]), 500)).toEqual(['1 BB', '161 ..', '331 BB', '491 ..']);
  });

  it('double: two flashes of one side while the other pauses', () => {
    expect(lampFilm(boardOf([engine({ flash: 'double' })]), 500)).toEqual([
      '1 B.',
      '40 ..',
      '80 B.',
      '120 ..',
      '240 .B',
      '280 ..',
      '320 .B',
      '360 ..',
      '480 B.',
    ]);
  });

  it('double together: they pause for as long as the other side would take', () => {
    const lines = lampFilm(boardOf([engine({ flash: 'double-together' })]), 500);
    expect(lines).toEqual(['1 BB', '40 ..', '80 BB', '120 ..', '480 BB']);
  });

  it('a works vehicle with one amber lamp flashes by itself', () => {
    const site = engine({ pins: ['D2'], colour: 'amber' });
    expect(told([site])).toEqual([]);
    expect(lampFilm(boardOf([site]), 500)).toEqual(['1 A', '161 .', '331 A', '491 .']);
  });

  it.each(['alternate', 'double'] as const)('%s by a switch: from its first flash, and dark at the end', (flash) => {
    const board = boardOf([engine({ flash, switch: 'call' })], { inputs: ['call'] });
    const lines = lampFilm(board, 10_000, detect(2000, 4000, 0));
    expect(lines[0]).toBe('2020 B.');
    expect(lines.at(-1)?.endsWith('..')).toBe(true);
    // A double flash is done to its end: 40 + 40 + 40 + 120 ms.
    expect(Number.parseInt(lines.at(-1) ?? '', 10)).toBeLessThanOrEqual(4020 + 240);
    expect(lines.filter((line) => line.endsWith('B')).length).toBeGreaterThan(3);
  });
});

describe('what is wrong is said', () => {
  it('one lamp that should flash in turn with another', () => {
    expect(told([engine({ pins: ['D2'], flash: 'double' })])).toEqual(['warning missing-lamp sites[0].lamps']);
    expect(() => boardOf([engine({ pins: [] })])).toThrow('no-lamps');
  });

  it('values that nothing uses, and a switch that is not there', () => {
    expect(told([engine({}, { pause: 0.2 })])).toEqual(['warning not-used sites[0].pause']);
    expect(told([engine({ flash: 'double' }, { off: 0.2 })])).toEqual(['warning not-used sites[0].off']);
    expect(told([engine({ switch: 'call' })])).toEqual(['error unknown-input sites[0].switch']);
  });
});
