/** Road-works shuttle signals: by time, by detectors, and the time in which the lane clears. */
import { describe, expect, it } from 'vitest';
import { makeShuttle } from '../../shared/layout/templates/shuttle.ts';
import { clearingMs } from '../../shared/signals/kinds/shuttle.ts';
import { type Act, film } from '../fixtures/film.ts';
import { shuttle as byHand } from '../fixtures/sites/shuttle.ts';
import { detect, tap } from '../interpreter/acts.ts';
import { boardOf, input, pins, seaWall, tableOf, told } from './road-site.ts';

const upper = input('upper', 'A0', { debounce: 0 });
const lower = input('lower', 'A1', { debounce: 0 });
const made = seaWall();
const ends = (one: object, other: object) => [
  { ...made.ends[0], ...one },
  { ...made.ends[1], ...other },
];
const wired = (more: object = {}) => ({
  sites: [seaWall({ ends: ends({ detector: 'upper' }, { detector: 'lower' }), ...more })],
  inputs: [upper, lower],
});
const byTime = (more: object = {}, practice = 'uk-today') => ({ sites: [seaWall(more)], practice });
const HEADS = 'RAG RAG';
const inOrder = (...acts: Act[]): Act[] => [...acts].sort(([a], [b]) => a - b);
const [UPPER, LOWER] = [0, 1];

describe('by time', () => {
  it('gives each end its green in turn, everything red for 8 s between', () => {
    expect(film(tableOf(byTime(), HEADS), 68_000)).toEqual([
      '1 RA. R..',
      '2000 ..G R..',
      '22000 .A. R..',
      '25000 R.. R..',
      '33000 R.. RA.',
      '35000 R.. ..G',
      '55000 R.. .A.',
      '58000 R.. R..',
      '66000 RA. R..',
      '68000 ..G R..',
    ]);
  });

  it('gives ends greens of their own', () => {
    const lines = film(tableOf(byTime({ ends: ends({ green: 30 }, { green: 15 }) }), HEADS), 80_000);
    expect(lines.slice(1, 3)).toEqual(['2000 ..G R..', '32000 .A. R..']);
    expect(lines.slice(5, 7)).toEqual(['45000 R.. ..G', '60000 R.. .A.']);
  });

  it('goes from red to green at once in the USA', () => {
    expect(film(tableOf(byTime({}, 'usa-today'), HEADS), 31_000)).toEqual([
      '1 ..G R..',
      '20000 .A. R..',
      '23000 R.. R..',
      '31000 R.. ..G',
    ]);
  });
});

describe('the time in which the lane clears', () => {
  const allRed = (more: object): number | undefined => {
    const { sites, table } = boardOf(byTime(more));
    return table.sites[0]?.dials[sites[0]?.dials.findIndex(({ id }) => id === 'all-red') ?? -1];
  };

  it('is the length of the works at the speed of the slowest, up to the next half second', () => {
    // 100 m at 24 km/h: 15 s. 50 m at 30 km/h: 6 s. 46 m at 24 km/h: 6.9 s.
    expect([clearingMs(100, 24), clearingMs(50, 30), clearingMs(46, 24)]).toEqual([15_000, 6000, 7000]);
    expect([allRed({ length: 100 }), allRed({ length: 50, speed: 30 })]).toEqual([15_000, 6000]);
  });

  it('is what the file says where it says so, and 8 s where nobody says anything', () => {
    expect([allRed({ length: 100, allRed: 9 }), allRed({})]).toEqual([9000, 8000]);
  });

  it('comes from millimetres of the baseboard at the scale: 600 mm in 1:76.2 are 45.7 m', () => {
    const site = makeShuttle({
      id: 'sea-wall',
      name: 'Sea Wall works',
      board: 'town',
      lamps: [pins(2, 3), pins(5, 3)],
      works: { mm: 600, ratio: 76.2 },
    });
    expect(site.length).toBe(45.7);
    expect(allRed({ length: site.length })).toBe(7000);
  });
});

describe('by detectors', () => {
  it('runs as the table written by hand, with its times', () => {
    const times = { ends: ends({ detector: 'upper', green: 30 }, { detector: 'lower', green: 30 }) };
    const acts = inOrder(
      ...tap(3000, UPPER),
      ...tap(20_000, LOWER),
      ...detect(50_000, 140_000, UPPER),
      ...tap(60_000, LOWER),
    );
    const lines = film(tableOf(wired(times), HEADS), 240_000, acts);
    expect(lines.length).toBeGreaterThan(15);
    expect(lines).toEqual(film(byHand, 240_000, acts));
  });

  it('rests with everything red (DfT guide on portable signals, p. 5) until somebody comes, and again after', () => {
    expect(film(tableOf(wired(), HEADS), 120_000, tap(30_000, LOWER))).toEqual([
      '1 R.. R..',
      '30001 R.. RA.',
      '32001 R.. ..G',
      // The minimum green of 12 s of the same guide.
      '44001 R.. .A.',
      '47001 R.. R..',
    ]);
  });

  it('extends a green while vehicles come, 3 s after the last one at the most', () => {
    const stream = inOrder(...Array.from({ length: 7 }, (_, index) => tap(30_000 + 2500 * index, UPPER)).flat());
    const lines = film(tableOf(wired(), HEADS), 120_000, stream);
    // The last is seen until 45.1 s.
    expect(lines.slice(2, 4)).toEqual(['32001 ..G R..', '48100 .A. R..']);
  });

  it('ends a green at its longest, and lets those who are still coming wait for their turn', () => {
    const acts = inOrder(...detect(30_000, 60_000, UPPER), ...tap(40_000, LOWER));
    expect(film(tableOf(wired(), HEADS), 120_000, acts).slice(2)).toEqual([
      '32001 ..G R..',
      '52001 .A. R..',
      '55001 R.. R..',
      '63001 R.. RA.',
      '65001 R.. ..G',
      '77001 R.. .A.',
      '80001 R.. R..',
      '88001 RA. R..',
      '90001 ..G R..',
      '102001 .A. R..',
      '105001 R.. R..',
    ]);
  });

  it('serves the ends in turn while both have traffic', () => {
    const acts = inOrder(...detect(1000, 300_000, UPPER), ...detect(1000, 300_000, LOWER));
    const greens = film(tableOf(wired(), HEADS), 300_000, acts).filter((line) => line.includes('G'));
    expect(greens.map((line) => line.slice(line.indexOf(' ') + 1))).toEqual(
      greens.map((_, index) => (index % 2 === 0 ? '..G R..' : 'R.. ..G')),
    );
    // 2 + 20 + 3 + 8 s a turn.
    expect(greens.map((line) => Number.parseInt(line, 10))).toEqual(greens.map((_, index) => 3001 + 33_000 * index));
    expect(greens).toHaveLength(9);
  });
});

describe('the table', () => {
  it('watches both ends against each other, and is red after a fault', () => {
    const program = boardOf(byTime()).table.programs[0];
    expect(program?.conflicts).toEqual([
      [2, 5],
      [2, 4],
      [1, 5],
      [1, 4],
    ]);
    expect(program?.fault).toEqual(['lit', 'dark', 'dark', 'lit', 'dark', 'dark']);
  });

  it('has the greens as its first dials', () => {
    for (const town of [byTime(), wired()]) {
      expect(
        boardOf(town)
          .sites[0]?.dials.slice(0, 2)
          .map(({ id }) => id),
      ).toEqual(['green-up', 'green-down']);
    }
  });
});

describe('told is', () => {
  it('nothing of good ones', () => {
    expect([...told(byTime()), ...told(wired()), ...told(byTime({ length: 300, speed: 30 }))]).toEqual([]);
  });

  it('that only one end has a detector: nobody would serve the other', () => {
    const one = { sites: [seaWall({ ends: ends({}, { detector: 'lower' }) })], inputs: [lower] };
    expect(told(one)).toEqual(['warning demand-never-served sites[0].ends[0]']);
    expect(boardOf(one).table.programs[0]?.rows.every((row) => row.op === 'after')).toBe(true);
  });

  it('that both ends have the same detector', () => {
    const same = { sites: [seaWall({ ends: ends({ detector: 'lower' }, { detector: 'lower' }) })], inputs: [lower] };
    expect(told(same)).toEqual(['warning demand-never-served sites[0].ends[1].detector']);
  });

  it('works longer than 300 m (DfT guide on portable signals, p. 5)', () => {
    expect(told(byTime({ length: 301, speed: 30 }))).toEqual(['warning works-too-long sites[0].length']);
  });

  it('a lane that would take too long to clear for the board', () => {
    expect(told(byTime({ length: 299, speed: 5 }))).toEqual(['error time-outside-limits sites[0].length']);
  });

  it('a minimum green under that of the guide, and greens under their minimum', () => {
    expect(told(wired({ minGreen: 5 }))).toEqual(['warning green-below-minimum sites[0].minGreen']);
    expect(told(byTime({ ends: ends({ green: 6 }, {}) }))).toEqual([
      'warning green-below-minimum sites[0].ends[0].green',
    ]);
  });

  it('lamps that are missing, ids that stand twice, what has no effect', () => {
    const [red, amber] = pins(2, 2);
    expect(told(byTime({ ends: ends({ lamps: { red, amber } }, {}) }))).toEqual([
      'warning lamp-missing sites[0].ends[0].lamps',
    ]);
    expect(told(byTime({ ends: ends({ id: 'down' }, {}) }))).toEqual(['error duplicate-id sites[0].ends[1].id']);
    expect(told(byTime({ speed: 30 }))).toEqual(['warning not-used sites[0].speed']);
    expect(told(byTime({ redWithAmber: 2 }, 'usa-today'))).toEqual(['warning not-used sites[0].redWithAmber']);
  });

  it('a detector that is named and not wired', () => {
    expect(told({ ...wired(), inputs: [upper] })).toEqual(['error unknown-input sites[0].ends[1].detector']);
  });
});
