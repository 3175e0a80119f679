/** Pelican crossings: periods against what was published, and what is told when something is wrong. */
import { describe, expect, it } from 'vitest';
import { film } from '../fixtures/film.ts';
import { pelican as byHand } from '../fixtures/sites/pelican.ts';
import { detect, tap } from '../interpreter/acts.ts';
import { boardOf, input, tableOf, told, townHall } from './road-site.ts';

const button = input('button', 'A0', { indicator: { pin: 'D8' } });
const HEADS = 'RAG RG WAIT';
const town = (more: object = {}) => ({ sites: [townHall(more)], inputs: [button] });

/** Seconds and aspects from a film, flashes left out: `[20, '.A. R.']`. */
function changes(lines: readonly string[]): [number, string][] {
  const found: [number, string][] = [];
  for (const line of lines) {
    const [ms, vehicles, figures] = line.split(' ');
    // The dark part of a flash.
    if (vehicles === '...') continue;
    const show = `${vehicles} ${figures}`;
    if (found.at(-1)?.[1] !== show) found.push([Math.round(Number(ms) / 1000), show]);
  }
  return found;
}

describe('the periods', () => {
  const lines = film(tableOf(town(), HEADS), 70_000, tap(3000, 0));

  it('come in the order of SI 1987/16 reg. 9 for people and of the histories for vehicles, no red with amber', () => {
    expect(changes(lines).map(([, show]) => show)).toEqual([
      '..G R.',
      '.A. R.',
      'R.. R.',
      'R.. .G',
      '.A. .G',
      '.A. R.',
      '..G R.',
    ]);
  });

  it('have amber of 3 s (Traffic Advisory Leaflet 1/06 part 2)', () => {
    expect(changes(lines).slice(1, 3)).toEqual([
      [20, '.A. R.'],
      [23, 'R.. R.'],
    ]);
  });

  it('have 7 s of green man and 10 s of flashing, 17 s in all (Hansard, HC 28 Jul 1977 c1399)', () => {
    expect(changes(lines).slice(3, 6)).toEqual([
      [24, 'R.. .G'],
      [31, '.A. .G'],
      [41, '.A. R.'],
    ]);
  });

  it('flash 75 times a minute, lit and dark for 400 ms (667/HB/32900 §28.5.3, by inference)', () => {
    const flashes = lines
      .filter((line) => / (\.A\.|\.\.\.) (\.G|\.\.) /.test(line))
      .map((line) => Number.parseInt(line, 10));
    expect(flashes).toEqual(Array.from({ length: 25 }, (_, index) => 31_000 + 400 * index));
  });

  it('light WAIT from the press to the green man', () => {
    expect(lines.filter((line) => line.endsWith('WAIT')).map((line) => Number.parseInt(line, 10))).toEqual([
      3020, 20_000, 23_000,
    ]);
  });

  it('begin with a flashing green man while traffic is held where period E is given (the change of 1983, Hansard 20 Apr 1983)', () => {
    const held = film(tableOf(town({ steadyGreen: 4, heldFlashing: 2 }), HEADS), 70_000, tap(3000, 0));
    expect(held.filter((line) => / R\.\. \.[.G] /.test(line))).toEqual([
      '24000 R.. .G ....',
      '28400 R.. .. ....',
      '28800 R.. .G ....',
      '29200 R.. .. ....',
      '29600 R.. .G ....',
    ]);
  });

  it('of no length have no rows', () => {
    const { sites } = boardOf(town({ allRed: 0, clearance: 0 }));
    expect(sites[0]?.rows.map((row) => row.label)).toEqual([
      'Vehicles green',
      'Vehicles amber',
      'Demand is served',
      'Green figure',
      'Green figure and amber flash',
    ]);
  });
});

describe('the table', () => {
  it('has the rows of the one written by hand', () => {
    const program = boardOf(town()).table.programs[0];
    expect(program?.rows).toEqual(byHand.programs[0]?.rows);
    expect(program?.conflicts).toEqual(byHand.programs[0]?.conflicts);
    expect(program?.flash).toEqual(byHand.programs[0]?.flash);
  });

  it('is red for both when asked to be safe, and dark after a fault', () => {
    const program = boardOf(town()).table.programs[0];
    expect(program?.safe).toEqual(['lit', 'dark', 'dark', 'lit', 'dark']);
    expect(program?.fault).toEqual(Array(5).fill('dark'));
  });

  it('is shared by pelicans of the same shape', () => {
    const second = townHall({
      id: 'pier',
      name: 'Pier',
      vehicles: { red: { pin: 'D9' }, amber: { pin: 'D10' }, green: { pin: 'D11' } },
      pedestrians: { red: { pin: 'D12' }, green: { pin: 'A1' } },
      buttons: ['other'],
      steadyGreen: 5,
    });
    const { table } = boardOf({ sites: [townHall(), second], inputs: [button, input('other', 'A2')] });
    expect(table.sites.map((site) => [site.program, site.inputs, site.dials[3]])).toEqual([
      [0, [0], 7000],
      [0, [1], 5000],
    ]);
  });

  it('lights heads with outputs of their own with the others, and watches their greens', () => {
    const heads = [{ id: 'far', name: 'Far side', kind: 'pedestrian', lamps: { green: { pin: 'D12' } } }];
    const program = boardOf(town({ heads })).table.programs[0];
    expect(program?.conflicts).toEqual([
      [2, 4],
      [2, 5],
    ]);
    expect(program?.rows[4]).toMatchObject({ states: ['lit', 'dark', 'dark', 'dark', 'lit', 'lit'] });
  });
});

describe('a demand', () => {
  it('that comes after the green man is served in the next round, at the least green', () => {
    const lines = film(tableOf(town(), HEADS), 100_000, [...tap(3000, 0), ...tap(36_000, 0)]);
    // Vehicles get green at 43 s and keep it for 20 s.
    expect(changes(lines).filter(([, show]) => show === 'R.. .G')).toEqual([
      [24, 'R.. .G'],
      [67, 'R.. .G'],
    ]);
  });

  it('of a button that is held is served round after round, vehicles green for 20 s between', () => {
    const lines = film(tableOf(town(), HEADS), 120_000, detect(1000, 120_000, 0));
    expect(
      changes(lines)
        .filter(([, show]) => show === 'R.. .G')
        .map(([s]) => s),
    ).toEqual([24, 67, 110]);
  });

  it('is not needed where there is no button: people cross by time', () => {
    const lines = film(tableOf({ sites: [townHall({ buttons: undefined })] }, 'RAG RG'), 100_000);
    expect(
      changes(lines)
        .filter(([, show]) => show === 'R.. .G')
        .map(([s]) => s),
    ).toEqual([24, 67]);
  });

  it('of either of two buttons is served, and both with it', () => {
    const buttons = { sites: [townHall({ buttons: ['button', 'far'] })], inputs: [button, input('far', 'A1')] };
    const lines = film(tableOf(buttons, HEADS), 60_000, [...tap(3000, 1), ...tap(4000, 0)]);
    expect(changes(lines).filter(([, show]) => show === 'R.. .G')).toEqual([[24, 'R.. .G']]);
  });

  it('on a common cycle ends the green at the offset, and without one the green goes on', () => {
    const groups = [{ id: 'g', name: 'Street', board: 'town', cycle: 60 }];
    const onCycle = { ...town({ group: 'g', offset: 10 }), more: { groups } };
    expect(told(onCycle)).toEqual(['note cycle-slack sites[0].group']);
    const lines = film(tableOf(onCycle, HEADS), 250_000, tap(75_000, 0));
    // The cycle begins at 1 ms; its point of 10 s comes every 60 s.
    expect(lines.filter((line) => / (\.A\.|\.\.G) R\. /.test(line) && !/ \.A\. R\. \.{4}/.test(line))).toEqual([
      '1 ..G R. ....',
      '75020 ..G R. WAIT',
      '130001 .A. R. WAIT',
      '153001 ..G R. ....',
    ]);
  });
});

describe('told is', () => {
  it('nothing of a good one', () => {
    expect(told(town())).toEqual([]);
  });

  it('that 1965 had none, and that the USA has none', () => {
    expect(told({ ...town(), practice: 'uk-1965' })).toEqual(['warning not-in-practice sites[0]']);
    expect(told({ ...town(), practice: 'usa-today' })).toEqual(['warning not-in-practice sites[0]']);
  });

  it('an amber outside the rule, but never a period that is only known from memory', () => {
    expect(told(town({ amber: 4 }))).toEqual(['warning unusual-time sites[0].amber']);
    expect(told(town({ allRed: 8, vehicleGreen: 5, clearance: 9 }))).toEqual([]);
  });

  it('a time that the board would refuse', () => {
    expect(told(town({ steadyGreen: 61 }))).toEqual(['error time-outside-limits sites[0].steadyGreen']);
  });

  it('a flash outside the rule where one is published (MUTCD §4G.01: 50 to 60 a minute), none where it is not', () => {
    const usa = (more: object) => told({ ...town(more), practice: 'usa-today' }).slice(1);
    expect(usa({ flashOn: 0.4, flashOff: 0.4 })).toEqual(['warning flash-rate sites[0].flashOn']);
    expect(usa({ flashOff: 0.9 })).toEqual([
      'warning flash-rate sites[0].flashOff',
      'warning flash-share sites[0].flashOff',
    ]);
    // 50 and 60 a minute are the ends.
    expect(usa({ flashOn: 0.5, flashOff: 0.5 })).toEqual([]);
    expect(usa({ flashOn: 0.6, flashOff: 0.6 })).toEqual([]);
    expect(told(town({ flashOn: 1, flashOff: 1 }))).toEqual([]);
  });

  it('a green figure that is missing, and a site without any lamp', () => {
    expect(told(town({ pedestrians: { red: { pin: 'D5' } } }))).toEqual(['warning lamp-missing sites[0].pedestrians']);
    expect(told(town({ vehicles: undefined, pedestrians: undefined }))).toEqual(['error no-lamps sites[0]']);
  });

  it('a button that is named and not wired', () => {
    expect(told({ sites: [townHall()] })).toEqual(['error unknown-input sites[0].buttons[0]']);
  });

  it('a button that two crossings share, because the first takes the demand from the second', () => {
    const second = townHall({
      id: 'pier',
      name: 'Pier',
      vehicles: { red: { pin: 'D9' }, amber: { pin: 'D10' }, green: { pin: 'D11' } },
      pedestrians: { red: { pin: 'D12' }, green: { pin: 'A1' } },
    });
    expect(told({ sites: [townHall(), second], inputs: [button] })).toEqual([
      'warning demand-shared sites[1].buttons[0]',
    ]);
  });

  it('a WAIT lamp that nothing would put out', () => {
    expect(told(town({ buttons: undefined }))).toEqual(['warning demand-never-served inputs[0].indicator']);
  });

  it('a lamp that no pedestrian head has', () => {
    const heads = [{ id: 'h', name: 'Far side', kind: 'pedestrian', lamps: { amber: { pin: 'D12' } } }];
    expect(told(town({ heads }))).toEqual(['warning not-used sites[0].heads[0].lamps.amber']);
  });
});
