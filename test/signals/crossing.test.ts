/** Signal-controlled crossings: far-side figures, near-side figures with detectors, and those of other countries. */
import { describe, expect, it } from 'vitest';
import { type Act, film } from '../fixtures/film.ts';
import { farSideCrossing as byHand } from '../fixtures/sites/far-side-crossing.ts';
import { detect, tap } from '../interpreter/acts.ts';
import { boardOf, input, schoolLane, tableOf, told } from './road-site.ts';

const button = input('button', 'A0', { indicator: { pin: 'D8' } });
const kerb = input('kerb', 'A1');
const zone = input('zone', 'A2');
const HEADS = 'RAG RG WAIT';
const town = (more: object = {}, practice = 'uk-today') => ({ sites: [schoolLane(more)], inputs: [button], practice });
const near = (more: object = {}) => ({
  ...town({ figures: 'near', kerbDetectors: ['kerb'], onCrossingDetectors: ['zone'], ...more }),
  inputs: [button, kerb, zone],
});

const inOrder = (...acts: Act[]): Act[] => [...acts].sort(([a], [b]) => a - b);
const starts = (lines: readonly string[], show: string): number[] =>
  lines.filter((line) => line.includes(` ${show} `)).map((line) => Number.parseInt(line, 10));

describe('far-side figures', () => {
  it('run as in the table written by hand, with its times', () => {
    const times = { vehicleGreen: 7, walk: 6, clearance: 9 };
    const lines = film(tableOf(town(times), HEADS), 60_000, tap(10_000, 0));
    expect(lines).toEqual([
      '1 ..G R. ....',
      '10020 .A. R. WAIT',
      '13020 R.. R. WAIT',
      '14020 R.. .G ....',
      '20020 R.. .. ....',
      '29020 R.. R. ....',
      '30020 RA. R. ....',
      '32020 ..G R. ....',
    ]);
    expect(lines).toEqual(film(byHand, 60_000, tap(10_000, 0)));
  });

  it('have amber of 3 s and red with amber of 2 s (Traffic Advisory Leaflet 1/06 part 2)', () => {
    const dials = new Map(boardOf(town()).sites[0]?.dials.map(({ id }, dial) => [id, dial]));
    const values = boardOf(town()).table.sites[0]?.dials ?? [];
    expect([values[dials.get('amber') ?? -1], values[dials.get('red-with-amber') ?? -1]]).toEqual([3000, 2000]);
  });

  it('watch vehicles that have green or amber against the green figure', () => {
    expect(boardOf(town()).table.programs[0]?.conflicts).toEqual([
      [1, 4],
      [2, 4],
    ]);
  });

  it('run by time without a button, and by a common cycle at their offset', () => {
    const alone = film(tableOf({ sites: [schoolLane({ buttons: undefined })] }, 'RAG RG'), 60_000);
    expect(alone.filter((line) => line.endsWith(' .G'))).toEqual(['24000 R.. .G']);
    const groups = [{ id: 'g', name: 'Street', board: 'town', cycle: 60 }];
    const cyclic = { sites: [schoolLane({ buttons: undefined, group: 'g', offset: 5 })], more: { groups } };
    const lines = film(tableOf(cyclic, 'RAG RG'), 200_000);
    // The first point comes before the least green of 20 s.
    expect(lines.filter((line) => line.includes(' .A.')).map((line) => Number.parseInt(line, 10))).toEqual([
      65_001, 125_001, 185_001,
    ]);
  });
});

describe('near-side figures', () => {
  const waiting = detect(2000, 25_000, 1);

  it('are red while people finish, and the road is held for as long as somebody is on the crossing', () => {
    const acts = inOrder(...tap(3000, 0), ...waiting, ...detect(25_000, 38_000, 2));
    expect(film(tableOf(near(), HEADS), 60_000, acts)).toEqual([
      '1 ..G R. ....',
      '3020 ..G R. WAIT',
      '20000 .A. R. WAIT',
      '23000 R.. R. WAIT',
      '24000 R.. .G ....',
      '30000 R.. R. ....',
      // The zone is clear at 38.02 s, then 1 s of all red.
      '39020 RA. R. ....',
      '41020 ..G R. ....',
    ]);
  });

  it('go on after the shortest clearance when nobody is on the crossing, after the longest when somebody stays', () => {
    const empty = film(tableOf(near(), HEADS), 60_000, inOrder(...tap(3000, 0), ...waiting));
    expect(empty.slice(-2)).toEqual(['37000 RA. R. ....', '39000 ..G R. ....']);
    const held = inOrder(...tap(3000, 0), ...waiting, ...detect(25_000, 60_000, 2));
    const longest = film(tableOf(near({ extension: 8 }), HEADS), 60_000, held);
    // 30 s and the clearance of 6 s and 8 s more; 1 s of all red.
    expect(longest.slice(-2)).toEqual(['45000 RA. R. ....', '47000 ..G R. ....']);
  });

  it('drop the demand of somebody who went away, and serve the next one at once', () => {
    const acts = inOrder(...tap(3000, 0), ...detect(2000, 9000, 1), ...detect(40_000, 50_000, 1), ...tap(41_000, 0));
    const lines = film(tableOf(near(), HEADS), 60_000, acts);
    expect(lines.slice(0, 5)).toEqual([
      '1 ..G R. ....',
      '3020 ..G R. WAIT',
      // Nobody was seen for 2 s after the least green.
      '22000 ..G R. ....',
      // Both in one tick: WAIT and amber.
      '41020 .A. R. WAIT',
      '44020 R.. R. WAIT',
    ]);
  });

  it('on a common cycle look for people at the point of the cycle only', () => {
    const groups = [{ id: 'g', name: 'Street', board: 'town', cycle: 60 }];
    const cyclic = { ...near({ group: 'g', offset: 30 }), more: { groups } };
    const acts = inOrder(...tap(3000, 0), ...detect(2000, 9000, 1), ...tap(50_000, 0), ...detect(49_000, 110_000, 1));
    const lines = film(tableOf(cyclic, HEADS), 120_000, acts);
    expect(lines.slice(0, 5)).toEqual([
      '1 ..G R. ....',
      '3020 ..G R. WAIT',
      '32001 ..G R. ....',
      '50020 ..G R. WAIT',
      '90001 .A. R. WAIT',
    ]);
  });
});

describe('other countries', () => {
  it('flash DON’T WALK in the USA, 7 s of walk before it (MUTCD §4E.06), vehicles without red with amber', () => {
    const lines = film(tableOf(town({}, 'usa-today'), HEADS), 60_000, tap(3000, 0));
    expect(starts(lines, 'R.. .G')).toEqual([24_500]);
    expect(lines.slice(5, 8)).toEqual(['31500 R.. R. ....', '32000 R.. .. ....', '32500 R.. R. ....']);
    expect(lines.at(-1)).toBe('44500 ..G R. ....');
    expect(lines.some((line) => line.includes('RA.'))).toBe(false);
  });

  it('go to red at once in Germany, vehicles with 1 s of red with yellow (VwV-StVO on §37 IX)', () => {
    const lines = film(tableOf(town({}, 'germany-today'), HEADS), 60_000, tap(3000, 0));
    expect(lines.slice(-3)).toEqual(['31000 R.. R. ....', '38000 RA. R. ....', '39000 ..G R. ....']);
  });
});

describe('told is', () => {
  it('nothing of good ones', () => {
    expect([...told(town()), ...told(near())]).toEqual([]);
  });

  it('that 1965 had none', () => {
    expect(told(town({}, 'uk-1965'))).toEqual(['warning not-in-practice sites[0]']);
  });

  it('times outside the rule, and those that the board would refuse', () => {
    expect(told(town({ amber: 3.25, redWithAmber: 1.75 }))).toEqual([]);
    expect(told(town({ amber: 2.7, redWithAmber: 2.3 }))).toEqual([
      'warning unusual-time sites[0].amber',
      'warning unusual-time sites[0].redWithAmber',
    ]);
    expect(told(town({ walk: 0.5 }))).toEqual(['error time-outside-limits sites[0].walk']);
    expect(told(near({ extension: 61 }))).toEqual(['error time-outside-limits sites[0].extension']);
  });

  it('a flash outside the rule (MUTCD §4G.01: 50 to 60 a minute)', () => {
    expect(told(town({ flashOn: 0.3, flashOff: 0.3 }, 'usa-today'))).toEqual(['warning flash-rate sites[0].flashOn']);
  });

  it('what has no effect', () => {
    expect(told(town({ extension: 5, flashOn: 0.5 }))).toEqual([
      'warning not-used sites[0].extension',
      'warning not-used sites[0].flashOn',
    ]);
    expect(told({ ...near({ buttons: undefined }), inputs: [kerb, zone] })).toEqual([
      'warning not-used sites[0].kerbDetectors',
    ]);
    expect(told(town({ redWithAmber: 2 }, 'usa-today'))).toEqual(['warning not-used sites[0].redWithAmber']);
  });

  it('inputs that are named and not wired, each at its place', () => {
    expect(told({ ...near(), inputs: [button] })).toEqual([
      'error unknown-input sites[0].kerbDetectors[0]',
      'error unknown-input sites[0].onCrossingDetectors[0]',
    ]);
  });

  it('a red figure that is missing', () => {
    expect(told(town({ pedestrians: { green: { pin: 'D6' } } }))).toEqual([
      'warning lamp-missing sites[0].pedestrians',
    ]);
  });
});
