/** Road lights at level crossings: with and without amber, by detectors and by time. */
import { describe, expect, it } from 'vitest';
import { Interpreter } from '../../shared/interpreter/interpreter.ts';
import { type Act, film } from '../fixtures/film.ts';
import { levelCrossing as byHand, levelCrossing1965 as byHand1965 } from '../fixtures/sites/level-crossing.ts';
import { detect, tap } from '../interpreter/acts.ts';
import { boardOf, gasworks, input, pins, tableOf, told } from './road-site.ts';

const down = input('down', 'A0', { debounce: 0.05 });
const up = input('up', 'A1', { debounce: 0.05 });
const town = (more: object = {}, practice = 'uk-today') => ({ sites: [gasworks(more)], inputs: [down, up], practice });
const [, left, right] = pins(2, 3);
/** Before September 1969: reds on D3 and D4. */
const OLD = { lights: { left, right } };
const byTime = (more: object = {}) => ({ sites: [gasworks({ detectors: undefined, ...more })] });

const inOrder = (...acts: Act[]): Act[] => [...acts].sort(([a], [b]) => a - b);
/** When the lights began and when they went out, ms: a dark part of a flash lasts no longer than 1 s. */
const turns = (lines: readonly string[]): [begin: number, end: number][] => {
  const found: [number, number][] = [];
  let lit = false;
  for (const line of lines) {
    const [ms, show] = line.split(' ');
    const isLit = show !== '...' && show !== '..';
    if (isLit && !lit) found.push([Number(ms), 0]);
    const last = found.at(-1);
    if (!isLit && last) last[1] = Number(ms);
    lit = isLit;
  }
  return found;
};

describe('with a train detector', () => {
  it('shows amber for 3 s, then the reds (NI SR 2023/9 Sch. 2 para 11), as the table written by hand does', () => {
    const lines = film(tableOf(town(), 'ALR'), 40_000, detect(5000, 25_000, 0));
    expect(lines.slice(0, 3)).toEqual(['5050 A..', '8050 .L.', '8450 ..R']);
    expect(lines).toEqual(film(byHand, 40_000, detect(5000, 25_000, 0)));
  });

  it('flashes the reds in turn, 400 ms each, 75 a minute (667/HB/32900 §28.5.3)', () => {
    const lines = film(tableOf(town(), 'ALR'), 40_000, detect(5000, 25_000, 0));
    const reds = lines.slice(1, -1);
    expect(reds).toEqual(reds.map((_, index) => `${8050 + 400 * index} ${index % 2 === 0 ? '.L.' : '..R'}`));
    expect(reds).toHaveLength(43);
  });

  it('before September 1969 has no amber: the reds come at once (Commercial Motor, 19 Sep 1969, p. 31)', () => {
    const lines = film(tableOf(town(OLD, 'uk-1965'), 'LR'), 40_000, detect(5000, 8000, 0));
    expect(lines.slice(0, 2)).toEqual(['5050 L.', '5450 .R']);
    // For 10 s at least.
    expect(lines.at(-1)).toBe('15050 ..');
    expect(lines).toEqual(film(byHand1965, 40_000, detect(5000, 8000, 0)));
  });

  it('is steady red in Germany, after yellow (EBO, annex 5, picture 2)', () => {
    const lines = film(tableOf(town({}, 'germany-today'), 'ALR'), 40_000, detect(5000, 25_000, 0));
    expect(lines).toEqual(['5050 A..', '8050 .LR', '25050 ...']);
  });

  it('shows the reds when asked to be safe and after a fault, and watches amber against red', () => {
    const program = boardOf(town()).table.programs[0];
    expect([program?.safe, program?.fault]).toEqual(Array(2).fill(['dark', 'flash', 'alternate']));
    expect(program?.conflicts).toEqual([
      [0, 1],
      [0, 2],
    ]);
  });
});

describe('with one for each direction', () => {
  const both = town({ detectors: ['down', 'up'] });

  it('the reds stay until both are clear', () => {
    const lines = film(tableOf(both, 'ALR'), 90_000, inOrder(...detect(5000, 25_000, 0), ...detect(20_000, 60_000, 1)));
    expect(turns(lines)).toEqual([[5050, 60_050]]);
  });

  it('a second train after the first has gone gets amber and reds of its own', () => {
    const lines = film(tableOf(both, 'ALR'), 90_000, inOrder(...detect(5000, 25_000, 0), ...detect(40_000, 60_000, 1)));
    expect(turns(lines)).toEqual([
      [5050, 25_050],
      [40_050, 60_050],
    ]);
  });
});

describe('a gap between two wagons', () => {
  const gaps = inOrder(...detect(5000, 20_000, 0), ...detect(21_500, 26_000, 0), ...detect(27_900, 28_000, 0));

  it('ends the reds where nothing is said of it', () => {
    expect(turns(film(tableOf(town(), 'ALR'), 90_000, gaps)).length).toBeGreaterThan(1);
  });

  it('does not where the reds go on for 2 s after the last one', () => {
    const lines = film(tableOf(town({ clearAfter: 2 }), 'ALR'), 90_000, gaps);
    expect(turns(lines)).toEqual([[5050, 30_050]]);
    // And no flash is broken on the way.
    const reds = lines.filter((line) => /\.L\.|\.\.R/.test(line)).map((line) => Number.parseInt(line, 10));
    expect(reds).toEqual(reds.map((_, index) => 8050 + 400 * index));
  });
});

describe('without a detector', () => {
  it('has trains at regular intervals', () => {
    const quiet = { least: 30, most: 30 };
    const lines = film(tableOf(byTime({ quiet, passing: 25 }), 'ALR'), 130_000);
    // 30 s quiet, 3 s amber, 25 s reds.
    expect(turns(lines)).toEqual([
      [30_000, 58_000],
      [88_000, 116_000],
    ]);
  });

  it('has trains at random within the limits, and not always the same', () => {
    const table = tableOf(byTime({ quiet: { least: 20, most: 60 }, passing: 25 }), 'ALR');
    const begins: number[] = [];
    const board = new Interpreter(table, { row: (_, __, row) => row === 1 && begins.push(board.ran) });
    board.start();
    board.run(3_600_000);
    const quiets = begins.map((ms, index) => ms - (index === 0 ? 0 : (begins[index - 1] ?? 0) + 28_000));
    expect(quiets.length).toBeGreaterThan(40);
    expect(Math.min(...quiets)).toBeGreaterThanOrEqual(20_000);
    expect(Math.max(...quiets)).toBeLessThanOrEqual(60_001);
    expect(new Set(quiets).size).toBeGreaterThan(30);
  });

  it('says how long a turn is only where it is always the same', () => {
    expect(told(byTime())).toEqual([]);
    expect(told(byTime({ quiet: { least: 60, most: 20 } }))).toEqual(['error time-outside-limits sites[0].quiet']);
  });
});

describe('told is', () => {
  it('nothing of good ones', () => {
    expect([...told(town()), ...told(town(OLD, 'uk-1965')), ...told(town({}, 'germany-today'))]).toEqual([]);
  });

  it('an amber lamp or time that the era did not have', () => {
    expect(told(town({ amber: 3 }, 'uk-1965'))).toEqual([
      'warning not-used sites[0].amber',
      'warning not-used sites[0].lights.amber',
    ]);
  });

  it('an amber lamp or a red that is missing', () => {
    expect(told(town(OLD))).toEqual(['warning lamp-missing sites[0].lights']);
    expect(told(town({ lights: { left } }, 'uk-1965'))).toEqual(['warning lamp-missing sites[0].lights']);
    // One steady red is a whole head.
    const [amber] = pins(2, 1);
    expect(told(town({ lights: { amber, left } }, 'germany-today'))).toEqual([]);
    expect(told(town({ lights: { amber } }, 'germany-today'))).toEqual(['warning lamp-missing sites[0].lights']);
  });

  it('an amber far from 3 s, and a red that the board would refuse', () => {
    expect(told(town({ amber: 4 }))).toEqual([]);
    expect(told(town({ amber: 5 }))).toEqual(['warning unusual-time sites[0].amber']);
    expect(told(town({ leastRed: 0.5 }))).toEqual(['error time-outside-limits sites[0].leastRed']);
  });

  it('what has no effect', () => {
    const quiet = { least: 30, most: 60 };
    expect(told(town({ quiet, passing: 30 }))).toEqual([
      'warning not-used sites[0].quiet',
      'warning not-used sites[0].passing',
    ]);
    expect(told(byTime({ clearAfter: 2, leastRed: 10 }))).toEqual([
      'warning not-used sites[0].clearAfter',
      'warning not-used sites[0].leastRed',
    ]);
    expect(told(town({ flashOn: 0.4 }, 'germany-today'))).toEqual(['warning not-used sites[0].flashOn']);
  });

  it('a detector that is named and not wired', () => {
    expect(told({ sites: [gasworks()] })).toEqual(['error unknown-input sites[0].detectors[0]']);
  });

  it('a lamp at a detector, which nothing would put out again', () => {
    const lamp = { ...down, indicator: { pin: 'D8' } };
    expect(told({ sites: [gasworks()], inputs: [lamp] })).toEqual(['warning demand-never-served inputs[0].indicator']);
  });

  it('a group, because a train does not wait for one', () => {
    const groups = [{ id: 'g', name: 'Street', board: 'town', cycle: 60 }];
    expect(told({ ...town({ group: 'g' }), more: { groups } })).toEqual(['warning not-used sites[0].group']);
  });
});

it('a train that is seen for a moment while the amber shows still gets its reds', () => {
  expect(turns(film(tableOf(town(), 'ALR'), 60_000, tap(5000, 0)))).toEqual([[5050, 18_050]]);
});
