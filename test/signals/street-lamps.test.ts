/** Street lamps: one after the other, striking, by a switch, by the night switch or for ever. */
import { describe, expect, it } from 'vitest';
import type { StreetLamps } from '../../shared/layout/kinds/street-lamps.ts';
import { makeStreetLamps, type StreetLampsWish } from '../../shared/layout/templates/street-lamps.ts';
import { switchOnOrder } from '../../shared/signals/kinds/street-lamps.ts';
import { encodeTable } from '../../shared/table/encode.ts';
import { detect } from '../interpreter/acts.ts';
import { boardOf, lampFilm, told } from './lamp-film.ts';

function street(wish: Partial<StreetLampsWish> = {}, values: Partial<StreetLamps> = {}): StreetLamps {
  const pins = wish.pins ?? ['D2', 'D3', 'D4', 'D5'];
  return { ...makeStreetLamps({ id: 'prom', name: 'Promenade', board: 'b', ...wish, pins }), ...values };
}

describe('the order in which they come on', () => {
  it('scattered: each into the widest gap', () => {
    expect(switchOnOrder(8, 'scattered')).toEqual([0, 4, 2, 6, 1, 5, 3, 7]);
    expect(switchOnOrder(5, undefined)).toEqual([0, 4, 2, 1, 3]);
    expect(switchOnOrder(1, 'scattered')).toEqual([0]);
  });

  it('in turn along the street', () => {
    expect(switchOnOrder(4, 'in-turn')).toEqual([0, 1, 2, 3]);
  });

  it('every number of lamps: each once', () => {
    for (let count = 1; count <= 32; count++) {
      expect([...switchOnOrder(count, 'scattered')].sort((a, b) => a - b)).toEqual(switchOnOrder(count, 'in-turn'));
    }
  });
});

describe('by a switch', () => {
  it('lamps without strikes come on one by one at dusk and go out together at dawn', () => {
    const board = boardOf([street({ switch: 'dusk' }, { strikes: 0 })], { inputs: ['dusk'] });
    expect(lampFilm(board, 80_000, detect(4000, 64_000, 0))).toEqual([
      '4020 W...',
      // Draws of site 0 with 50 to 400 tens: 339, 381 and 81.
      '7410 W.W.',
      '11220 WWW.',
      '12030 WWWW',
      '64020 ....',
    ]);
  });

  it('discharge lamps strike twice before they stay lit; those that are lit do not mind', () => {
    const board = boardOf([street({ switch: 'dusk', pins: ['D2', 'D3'] })], { inputs: ['dusk'] });
    const shown = lampFilm(board, 60_000, detect(4000, 60_000, 0)).map((line) => line.split(' ')[1]);
    // On, out, on, out, on to stay; the second lamp the same beside it.
    expect(shown).toEqual(['W.', '..', 'W.', '..', 'W.', 'WW', 'W.', 'WW', 'W.', 'WW']);
  });

  it('each flicker is as short and each pause as long as the practice says', () => {
    const board = boardOf([street({ switch: 'dusk' })], { inputs: ['dusk'] });
    const lines = lampFilm(board, 120_000, detect(0, 120_000, 0)).map((line) => line.split(' '));
    const spans = lines.slice(1).map(([ms], index) => Number(ms) - Number(lines[index]?.[0]));
    // Four flickers and a pause for each lamp; the last one just stays lit.
    expect(spans).toHaveLength(4 * 5 - 1);
    for (const [index, span] of spans.entries()) {
      const isPause = index % 5 === 4;
      expect(span).toBeGreaterThanOrEqual(isPause ? 500 : 40);
      expect(span).toBeLessThanOrEqual(isPause ? 4000 : 250);
    }
  });

  it('switched off half way they go out after the lamp in hand, not after the whole street', () => {
    const board = boardOf([street({ switch: 'dusk' }, { strikes: 0 })], { inputs: ['dusk'] });
    expect(lampFilm(board, 60_000, detect(4000, 8000, 0))).toEqual(['4020 W...', '7410 W.W.', '11220 ....']);
  });

  it('a dusk sensor that dithers is not followed faster than the settle time', () => {
    const board = boardOf([street({ switch: 'dusk', pins: ['D2'] }, { strikes: 0, settle: 5 })], { inputs: ['dusk'] });
    const acts = [...detect(6000, 6200, 0), ...detect(6400, 6600, 0), ...detect(6800, 20_000, 0)];
    // Lit at 6,020; dark at the earliest 5 s later, and by then it is night.
    expect(lampFilm(board, 30_000, acts)).toEqual(['6020 W', '20020 .']);
  });
});

describe('without a switch of their own', () => {
  it('for ever: they come on after power-on and stay lit', () => {
    const board = boardOf([street({ pins: ['D2', 'D3'] }, { strikes: 0 })]);
    const lines = lampFilm(board, 3_600_000);
    expect(lines.map((line) => line.split(' ')[1])).toEqual(['W.', 'WW']);
    expect(board.table.inputs).toEqual([]);
  });

  it('by night: the night switch of the board lights them', () => {
    const board = boardOf([street({ when: 'night', pins: ['D2', 'D3'] }, { strikes: 0 })], {
      inputs: ['dusk'],
      night: 'dusk',
    });
    expect(board.table.nightInput).toBe(0);
    const shown = lampFilm(board, 60_000, detect(4000, 30_000, 0)).map((line) => line.split(' ')[1]);
    expect(shown).toEqual(['W.', 'WW', '..']);
  });

  it('by night with no such switch: the panel may light them all at once where the site is told so', () => {
    const site = street({ when: 'night' }, { atNight: 'safe' });
    expect(told([site])).toEqual([]);
    const board = boardOf([site]);
    expect(lampFilm(board, 5000, [[2000, (run) => run.setMaster('night')]])).toEqual(['2001 WWWW']);
  });
});

describe('what is wrong is said', () => {
  it('a night switch that the board does not have', () => {
    expect(told([street({ when: 'night' })])).toEqual(['warning no-night-switch sites[0].when']);
  });

  it('a switch that the layout does not have', () => {
    expect(told([street({ switch: 'dusk' })])).toEqual(['error unknown-input sites[0].switch']);
  });

  it('values that nothing uses', () => {
    const site = street({}, { strikes: 0, flicker: { longest: 0.3 }, settle: 2, group: 'line' });
    expect(told([site], { cycle: 60 })).toEqual([
      'warning not-used sites[0].flicker',
      'warning not-used sites[0].settle',
      'warning not-used sites[0].group',
    ]);
    expect(told([street({ switch: 'dusk' }, { when: 'always' })], { inputs: ['dusk'] })).toEqual([
      'warning not-used sites[0].when',
    ]);
  });

  it('times the wrong way round, and a lamp without a pin', () => {
    expect(told([street({}, { pause: { shortest: 5, longest: 2 } })])).toEqual([
      'warning between-swapped sites[0].pause',
    ]);
    expect(told([street({}, { lamps: [{ id: 'one' }] })])).toEqual(['error no-output sites[0].lamps[0]']);
  });
});

it('two streets of eight lamps share a program and leave room on the small chip', () => {
  const bits = (from: number) => Array.from({ length: 8 }, (_, index) => ({ id: `l${index}`, bit: from + index }));
  const chain = { chips: 2, data: 'D2', clock: 'D3', latch: 'D4' };
  const sites = [
    street({ switch: 'dusk' }, { lamps: bits(0) }),
    street({ id: 'two', switch: 'dusk' }, { lamps: bits(8) }),
  ];
  const board = boardOf(sites, { inputs: ['dusk'], chain });
  expect(board.table.programs).toHaveLength(1);
  const { free } = encodeTable(board.table);
  expect(free).toBeGreaterThan(150);
});
