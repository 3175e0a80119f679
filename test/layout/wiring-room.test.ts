/** What helps when outputs run out: heads that share, a chain; and the details of one lamp. */
import { describe, expect, it } from 'vitest';
import { readLayout } from '../../shared/layout/parse.ts';
import type { Layout } from '../../shared/layout/schema.ts';
import { freePins } from '../../shared/layout/templates/pins.ts';
import { addChain, chipsFor, MOST_CHIPS } from '../../shared/layout/wiring/chain.ts';
import {
  likeThis,
  setBoardPower,
  setCircuit,
  setPolarity,
  setSeries,
  setSource,
  setUsual,
  wireColour,
} from '../../shared/layout/wiring/details.ts';
import type { Edited } from '../../shared/layout/wiring/edit.ts';
import { lampPlaces } from '../../shared/layout/wiring/lamps.ts';
import { valueAt } from '../../shared/layout/wiring/path.ts';
import { shareHeads, sharingOf } from '../../shared/layout/wiring/share.ts';
import { writeLayout } from '../../shared/layout/write.ts';
import { compileLayout } from '../../shared/signals/compile.ts';
import { CAPACITY } from '../../shared/table/format.ts';
import { PENMARROW } from '../panel/example.ts';
import { type Edits, edited, smallLayout } from './small.ts';

function read(value: unknown): Layout {
  const { layout, findings } = readLayout(value);
  if (layout === null) throw new Error(findings[0]?.what);
  return layout;
}
const small = (edits: Edits = {}): Layout => read(edited(smallLayout(), edits));
const penmarrow = (): Layout => read(JSON.parse(PENMARROW));

function done(edit: Edited) {
  if ('findings' in edit) throw new Error(edit.findings[0]?.what);
  return edit;
}
const refusals = (edit: Edited): string[] => ('findings' in edit ? edit.findings.map(({ code }) => code) : []);
const errors = (layout: Layout) => compileLayout(layout).findings.filter(({ severity }) => severity === 'error');

/** What each row of the board's first site shows, by colour: the same before and after sharing. */
function shows(layout: Layout): string[][] {
  const [board] = compileLayout(layout).boards;
  const [site] = board?.sites ?? [];
  const binding = board?.table.sites[0];
  const rows = board?.table.programs[binding?.program ?? 0]?.rows ?? [];
  return rows.map((row) =>
    'states' in row ? (site?.lamps ?? []).flatMap(({ colour }, at) => (row.states[at] === 'lit' ? [colour] : [])) : [],
  );
}

const lamps = (red: number, more: object = {}) => ({
  red: { pin: `D${red}`, ...more },
  amber: { pin: `D${red + 1}` },
  green: { pin: `D${red + 2}` },
});

/** A Street with a head at each end, each on outputs of its own. */
function twoHeads(edits: Edits = {}): Layout {
  return small({
    'sites.0.phases.0': { id: 'A', name: 'A Street' },
    'sites.0.heads': [
      { id: 'n', name: 'A Street, north', phase: 'A', lamps: lamps(2) },
      { id: 's', name: 'A Street, south', phase: 'A', lamps: lamps(8) },
    ],
    ...edits,
  });
}

describe('heads that always show the same', () => {
  it('share the outputs of the first, and free the others', () => {
    const layout = twoHeads();
    const { layout: next, said } = done(shareHeads(layout, 'cross'));
    expect(valueAt(next, 'sites[0].phases[0].lamps')).toEqual(lamps(2));
    expect(valueAt(next, 'sites[0].heads')).toEqual([
      { id: 'n', name: 'A Street, north', phase: 'A' },
      { id: 's', name: 'A Street, south', phase: 'A' },
    ]);
    expect(said).toBe('Let heads of The Cross share outputs: 3 outputs came free.');
    expect(freePins(next, 'b1').filter((pin) => !freePins(layout, 'b1').includes(pin))).toEqual(['D8', 'D9', 'D10']);
    expect(errors(next)).toEqual([]);
    // The rows are as they were, with each pair of lamps in one.
    const once = (rows: string[][]) => rows.map((row) => [...new Set(row)].sort());
    expect(once(shows(next))).toEqual(once(shows(layout)));
    expect(sharingOf(layout, 'cross').sharings.map(({ freed }) => freed)).toEqual([1, 1, 1]);
  });

  it('join the outputs that are shared already', () => {
    const layout = twoHeads({ 'sites.0.phases.0.lamps': { red: { pin: 'D11' } } });
    const { layout: next } = done(shareHeads(layout, 'cross'));
    expect(valueAt(next, 'sites[0].phases[0].lamps.red')).toEqual({ pin: 'D11' });
    expect(lampPlaces(next, 'b1')).toHaveLength(3 + 3 + 2);
  });

  it('stay apart where they differ, or where another head has no such lamp', () => {
    const differs = twoHeads({ 'sites.0.heads.1.lamps': lamps(8, { electrics: { count: 3 } }) });
    expect(sharingOf(differs, 'cross').sharings.map(({ path }) => path)).toEqual([
      'sites[0].phases[0].lamps.amber',
      'sites[0].phases[0].lamps.green',
    ]);
    const arrow = twoHeads({
      'sites.0.heads.2': { id: 'f', name: 'Filter', phase: 'A', lamps: { green: { pin: 'D11' } } },
    });
    expect(sharingOf(arrow, 'cross').sharings.map(({ path }) => path)).toEqual(['sites[0].phases[0].lamps.green']);
  });

  it('are not there to share in Penmarrow, which says what else helps', () => {
    expect(refusals(shareHeads(penmarrow(), 'market-cross'))).toEqual(['nothing-to-share']);
    expect(refusals(shareHeads(penmarrow(), 'harbour-crossing'))).toEqual(['nothing-to-share']);
    expect(refusals(shareHeads(penmarrow(), 'nowhere'))).toEqual(['nothing-to-share']);
  });

  it('do so at crossings and level crossings, too', () => {
    const crossing = small({
      'sites.0': {
        kind: 'pelican',
        id: 'cross',
        name: 'The Cross',
        board: 'b1',
        heads: [
          { id: 'a', name: 'A', kind: 'vehicle', lamps: lamps(2) },
          { id: 'b', name: 'B', kind: 'vehicle', lamps: lamps(5) },
          { id: 'c', name: 'C', kind: 'pedestrian', lamps: { red: { pin: 'D8' }, green: { pin: 'D9' } } },
          { id: 'd', name: 'D', kind: 'pedestrian', lamps: { red: { pin: 'D10' }, green: { pin: 'D11' } } },
        ],
      },
    });
    expect(sharingOf(crossing, 'cross').sharings).toHaveLength(5);
    expect(errors(done(shareHeads(crossing, 'cross')).layout)).toEqual([]);
    const rails = small({
      'sites.0': {
        kind: 'level-crossing',
        id: 'cross',
        name: 'The Cross',
        board: 'b1',
        lights: { amber: { pin: 'D2' }, left: { pin: 'D3' }, right: { pin: 'D4' } },
        heads: [{ id: 'a', name: 'A', lights: { left: { pin: 'D5' }, right: { pin: 'D6' } } }],
      },
    });
    const { layout } = done(shareHeads(rails, 'cross'));
    expect(valueAt(layout, 'sites[0].heads')).toEqual([{ id: 'a', name: 'A' }]);
    expect(errors(layout)).toEqual([]);
  });
});

describe('a chain', () => {
  it('takes the lamps of the sites that go to it, and four of the pins that come free', () => {
    const { layout, said } = done(addChain(penmarrow(), 'town', { sites: ['market-cross'] }));
    expect(layout.boards[0]?.chain).toEqual({ chips: 1, data: 'D2', clock: 'D3', latch: 'D4', enable: 'D5' });
    expect(
      lampPlaces(layout, 'town')
        .slice(0, 6)
        .map(({ output }) => output),
    ).toEqual([128, 129, 130, 131, 132, 133]);
    expect(said).toBe('Gave Town board a chain of 1 chip, with 6 lamps on it.');
    expect(errors(layout)).toEqual([]);
  });

  it('is made longer when it is there', () => {
    const first = done(addChain(penmarrow(), 'town', { sites: ['market-cross'] })).layout;
    const { layout, said } = done(addChain(first, 'town', { sites: ['chapel-corner'] }));
    expect(chipsFor(first, 'town', ['chapel-corner'])).toBe(2);
    expect(layout.boards[0]?.chain).toEqual({ chips: 2, data: 'D2', clock: 'D3', latch: 'D4', enable: 'D5' });
    expect(said).toBe('Made the chain of Town board 2 chips long, with 6 lamps on it.');
    expect(errors(layout)).toEqual([]);
  });

  it('may be had without lamps, or longer than needed', () => {
    const { layout } = done(addChain(small(), 'b1', { sites: [], chips: 3 }));
    expect(layout.boards[0]?.chain).toEqual({ chips: 3, data: 'D8', clock: 'D9', latch: 'D10', enable: 'D11' });
  });

  it('goes without its fourth wire where no pin is left, and is refused where three are not', () => {
    const full = (count: number): Layout =>
      read({
        ...JSON.parse(PENMARROW),
        inputs: ['A3', 'A4', 'A5'].slice(0, count).map((pin) => ({ id: pin, name: pin, board: 'town', pin })),
      });
    expect(done(addChain(full(0), 'town', { sites: [] })).layout.boards[0]?.chain).toEqual({
      chips: 1,
      data: 'A3',
      clock: 'A4',
      latch: 'A5',
    });
    expect(refusals(addChain(full(1), 'town', { sites: [] }))).toEqual(['no-pins-for-chain']);
    expect(done(addChain(full(3), 'town', { sites: ['market-cross'] })).layout.boards[0]?.chain?.enable).toBe('D5');
  });

  it('has no more chips than the board can address', () => {
    expect(refusals(addChain(small(), 'b1', { sites: [], chips: 9 }))).toEqual(['too-many-chips']);
    for (const chip of ['atmega328p', 'atmega2560'] as const) expect(MOST_CHIPS[chip]).toBe(CAPACITY[chip].chips);
    expect(refusals(addChain(small(), 'b9', { sites: [] }))).toEqual(['no-such-board']);
  });
});

describe('details of a lamp', () => {
  const RED = 'sites[0].phases[0].lamps.red';
  const layout = small();

  it('are written beside its output, and taken out again without a trace', () => {
    const wired = done(wireColour(layout, RED, 'violet'));
    expect(wired.said).toBe('Gave The Cross, A Street red a violet wire.');
    const fed = done(setCircuit(wired.layout, RED, { milliamps: 4, count: 2, wired: 'series', volts: undefined }));
    const low = done(setSource(done(setPolarity(fed.layout, RED, true)).layout, RED, 'smallFilament'));
    expect(valueAt(low.layout, RED)).toEqual({
      pin: 'D2',
      activeLow: true,
      source: 'smallFilament',
      wire: 'violet',
      electrics: { milliamps: 4, count: 2, wired: 'series' },
    });
    const back = [
      (it: Layout) => wireColour(it, RED, undefined),
      (it: Layout) => setCircuit(it, RED, { milliamps: undefined }),
      (it: Layout) => setPolarity(it, RED, false),
      (it: Layout) => setSource(it, RED, 'led'),
    ].reduce((it, edit) => done(edit(it)).layout, low.layout);
    expect(writeLayout(back)).toBe(writeLayout(layout));
  });

  it('are taken over by others, which keep outputs and wires', () => {
    const others = ['sites[0].phases[1].lamps.red', 'sites[1].beacons[0]'];
    const given = done(setCircuit(done(wireColour(layout, RED, 'violet')).layout, RED, { milliamps: 4 })).layout;
    const { layout: next, said } = done(likeThis(given, RED, others));
    expect(valueAt(next, others[0] ?? '')).toEqual({ pin: 'D5', electrics: { milliamps: 4 } });
    expect(valueAt(next, others[1] ?? '')).toEqual({ id: 'left', pin: 'A0', electrics: { milliamps: 4 } });
    expect(said).toBe('Made 2 lamps like The Cross, A Street red.');
    expect(refusals(likeThis(given, RED, ['sites[9].x']))).toEqual(['no-such-lamp']);
  });

  it('come from what is usual on the layout, where a colour has something usual', () => {
    const red = done(setUsual(layout, 'red', { forward: 1.8, milliamps: undefined })).layout;
    const both = done(setUsual(red, 'green', { forward: undefined, milliamps: 2 })).layout;
    expect(read(JSON.parse(writeLayout(both))).electrics).toEqual({
      usual: { red: { forward: 1.8 }, green: { milliamps: 2 } },
    });
    const none = { forward: undefined, milliamps: undefined };
    const back = done(setUsual(done(setUsual(both, 'red', none)).layout, 'green', none)).layout;
    expect(back).toEqual(layout);
    const series = done(setSeries(red, 'E24')).layout;
    expect(done(setUsual(series, 'red', none)).layout.electrics).toEqual({ series: 'E24' });
  });

  it('are kept by the file, with power and resistors', () => {
    const powered = done(setBoardPower(layout, 'b1', { from: 'external', milliamps: 2000, volts: undefined }));
    expect(powered.said).toBe('Board 1 gets its power from a supply of its own.');
    const next = done(setSeries(powered.layout, 'E24')).layout;
    expect(read(JSON.parse(writeLayout(next)))).toMatchObject(next);
    expect(next.boards[0]?.power).toEqual({ from: 'external', milliamps: 2000 });
    expect(done(setBoardPower(next, 'b1', { from: undefined })).layout.boards[0]?.power).toBeUndefined();
    expect(refusals(setBoardPower(layout, 'b9', {}))).toEqual(['no-such-board']);
    expect(refusals(wireColour(layout, 'sites[0].name', 'red'))).toEqual(['no-such-lamp']);
  });
});
