/** From junctions of a layout to a wave and back, down to the lamps. */
import { describe, expect, test } from 'vitest';
import { Interpreter } from '../../shared/interpreter/interpreter.ts';
import { parseLayout } from '../../shared/layout/parse.ts';
import type { Layout } from '../../shared/layout/schema.ts';
import { compileLayout } from '../../shared/signals/compile.ts';
import { applyWave } from '../../shared/signals/progression/apply.ts';
import { planStreet, type StreetRequest } from '../../shared/signals/progression/layout.ts';
import { searchOffsets } from '../../shared/signals/progression/search.ts';
import type { Street } from '../../shared/signals/progression/street.ts';
import { type Edits, edited, type Loose, smallLayout } from '../layout/small.ts';

/** Three junctions of Fore Street on one board; each has the street's green first. */
function foreStreet(edits: Edits = {}): Layout {
  const layout = smallLayout();
  layout.boards = [
    { id: 'b1', name: 'Town board', chip: 'atmega2560' },
    { id: 'b2', name: 'Harbour board', chip: 'atmega2560' },
  ];
  const [cross] = layout.sites;
  layout.sites = [
    ['cross', 'Market Cross', 18, 12],
    ['chapel', 'Chapel Corner', 25, 9],
    ['station', 'Station Road', 20, 15],
  ].map(([id, name, one, two], index): Loose => {
    const site = structuredClone(cross);
    const pins = ['red', 'amber', 'green'];
    const lamps = (first: number) => Object.fromEntries(pins.map((colour, at) => [colour, { pin: first + at }]));
    site.phases = [
      { id: 'A', name: 'Fore Street', lamps: lamps(22 + 6 * index) },
      { id: 'B', name: 'Side road', lamps: lamps(25 + 6 * index) },
    ];
    site.heads = [];
    site.stages = [
      { id: '1', phases: ['A'], green: one },
      { id: '2', phases: ['B'], green: two },
    ];
    return { ...site, id, name };
  });
  layout.sites.push({ ...structuredClone(layout.sites[0]), id: 'quay', name: 'The Quay', board: 'b2' });
  const { layout: parsed, findings } = parseLayout(JSON.stringify(edited(layout, edits)));
  if (parsed === null) throw new Error(JSON.stringify(findings));
  return parsed;
}

const request: StreetRequest = {
  sites: ['cross', 'chapel', 'station'],
  distances: [0, 55, 140],
  speed: { out: 10, back: 10 },
};

function planned(layout: Layout, words: Partial<StreetRequest> = {}): Street {
  const { street, findings } = planStreet(layout, { ...request, ...words });
  if (street === null) throw new Error(JSON.stringify(findings));
  return street;
}

const codes = (findings: readonly { code: string; path: string }[]) =>
  findings.map(({ code, path }) => `${code} at ${path}`);

describe('the street of three junctions', () => {
  test('has the greens of its phase after each zero: the change comes first, the longest cycle is the cycle', () => {
    const street = planned(foreStreet());
    // Station Road: 20 + 15 and two changes of 5 s.
    expect(street).toMatchObject({ name: 'Fore Street', cycle: 45, speed: { out: 10, back: 10 } });
    expect(street.stops.map(({ id, distance, out, back }) => [id, distance, out, back])).toEqual([
      ['cross', 0, { start: 5, length: 18 }, { start: 5, length: 18 }],
      ['chapel', 55, { start: 5, length: 25 }, { start: 5, length: 25 }],
      ['station', 140, { start: 5, length: 20 }, { start: 5, length: 20 }],
    ]);
  });

  test('along the side roads the last stage lasts until the cycle is over', () => {
    const street = planned(foreStreet(), { phases: { out: ['B', 'B', 'B'], back: ['A', 'B', 'B'] }, cycle: 60 });
    expect(street.stops[0]).toMatchObject({ out: { start: 28, length: 32 }, back: { start: 5, length: 18 } });
  });

  test('a phase that stays green from stage to stage counts as one green, over the zero too', () => {
    const layout = foreStreet({
      'sites.0.phases.2': { id: 'C', name: 'Both ways', lamps: { red: { pin: 50 }, amber: { pin: 51 } } },
      'sites.0.stages': [
        { id: '1', phases: ['A', 'C'], green: 10 },
        { id: '2', phases: ['B'], green: 8 },
        { id: '3', phases: ['A'], green: 9 },
      ],
      'sites.0.conflicts': [['A', 'B']],
    });
    // A: green in stage 3, through its change to stage 1, and in stage 1.
    const [cross] = planned(layout, { cycle: 60 }).stops;
    const total = 10 + 5 + 8 + 5 + 9 + 2;
    expect(cross?.out).toEqual({ start: 60 - 9 - (60 - total), length: 9 + (60 - total) + 2 + 10 });
  });

  test('a stage that its traffic lengthens is told of', () => {
    const layout = foreStreet({
      inputs: [{ id: 'loop', name: 'Loop', board: 'b1', pin: 'D8' }],
      'sites.1.stages.1.extend': { maximum: 30, detectors: ['loop'] },
    });
    expect(codes(planStreet(layout, request).findings)).toEqual(['wave-varies at sites[1]']);
  });

  test('a common cycle is the cycle', () => {
    const layout = foreStreet({
      groups: [{ id: 'g', name: 'Fore Street', board: 'b1', cycle: 70 }],
      'sites.1.group': 'g',
    });
    expect(planned(layout).cycle).toBe(70);
  });
});

describe('what cannot be', () => {
  test.each([
    ['a site that is not there', { sites: ['cross', 'nowhere', 'station'] }, ['unknown-site at sites']],
    ['a junction twice', { sites: ['cross', 'chapel', 'cross'] }, ['out-of-order at sites']],
    ['too few distances', { distances: [0, 55] }, ['distances-and-sites at sites']],
    ['a cycle too short for one', { cycle: 42 }, ['cycle-too-short at sites[1]', 'cycle-too-short at sites[2]']],
    ['distances that go back', { distances: [0, 55, 30] }, ['out-of-order at sites']],
    [
      'an unknown phase',
      { phases: { out: ['A', 'X', 'A'], back: ['A', 'A', 'A'] } },
      ['unknown-phase at sites[1].phases'],
    ],
  ] as const)('%s', (_, words, expected) => {
    const { street, findings } = planStreet(foreStreet(), { ...request, ...words });
    expect(street).toBeNull();
    expect(codes(findings)).toEqual(expected);
  });

  test('a crossing is no junction', () => {
    const layout = foreStreet({
      'sites.4': { kind: 'zebra', id: 'z', name: 'Zebra', board: 'b1', beacons: [{ id: 'l', pin: 'A0' }] },
    });
    expect(codes(planStreet(layout, { ...request, sites: ['cross', 'z', 'chapel'] }).findings)).toEqual([
      'not-a-junction at sites',
    ]);
  });
});

describe('applied to the layout', () => {
  test('the junctions get one common cycle and their offsets; the first keeps its own', () => {
    const layout = foreStreet({ 'sites.1.startDelay': 3 });
    const street = planned(layout, { cycle: 60 });
    const applied = applyWave(layout, street, searchOffsets(street, { weights: { out: 1, back: 0 } }));
    expect(applied.findings).toEqual([]);
    expect(applied.layout.groups).toEqual([{ id: 'wave', name: 'Fore Street', board: 'b1', cycle: 60 }]);
    expect(
      applied.layout.sites.map((site) => [
        site.id,
        site.group,
        site.kind === 'junction' ? site.offset : null,
        site.kind === 'junction' ? site.startDelay : null,
      ]),
    ).toEqual([
      ['cross', 'wave', 0, undefined],
      // Traffic arrives after 5.5 s and 14 s; the junction before asks for no wider band than 18 s.
      ['chapel', 'wave', 5.5, undefined],
      ['station', 'wave', 14, undefined],
      ['quay', undefined, undefined, undefined],
    ]);
    expect(compileLayout(applied.layout).findings.filter(({ severity }) => severity !== 'note')).toEqual([]);
  });

  test('an existing common cycle is used, its limits give way, and who else is on it is told', () => {
    const layout = foreStreet({
      groups: [{ id: 'g', name: 'Town', board: 'b1', cycle: 45, least: 40, greatest: 50 }],
      'sites.0.group': 'g',
      'sites.0.offset': 50,
      'sites.2.group': 'g',
    });
    const street = planned(layout, { sites: ['cross', 'chapel'], distances: [0, 200], cycle: 60 });
    const applied = applyWave(layout, street, searchOffsets(street, { weights: { out: 1, back: 0 } }));
    expect(codes(applied.findings)).toEqual(['other-on-cycle at sites[2].group']);
    expect(applied.layout.groups).toEqual([{ id: 'g', name: 'Town', board: 'b1', cycle: 60, least: 40, greatest: 60 }]);
    expect(applied.layout.sites.slice(0, 3).map((site) => (site.kind === 'junction' ? site.offset : null))).toEqual([
      50,
      10,
      undefined,
    ]);
  });

  test('junctions of two boards get a cycle of one name each, and the wire is asked for', () => {
    const layout = foreStreet();
    const street = planned(layout, { sites: ['cross', 'quay'], distances: [0, 100], cycle: 60 });
    const applied = applyWave(layout, street, searchOffsets(street));
    expect(codes(applied.findings)).toEqual(['wave-over-boards at groups']);
    expect(applied.layout.groups).toEqual([
      { id: 'wave-b1', name: 'Fore Street', board: 'b1', cycle: 60 },
      { id: 'wave-b2', name: 'Fore Street', board: 'b2', cycle: 60 },
    ]);
    expect(codes(compileLayout(applied.layout).findings)).toContain('sync-wire-missing at groups[1]');
  });

  test('on the board every vehicle of both bands finds each green lit', () => {
    const layout = foreStreet();
    const street = planned(layout, { cycle: 60 });
    const wave = searchOffsets(street);
    expect([wave.out.width, wave.back.width]).toEqual([5, 5]);
    const [board] = compileLayout(applyWave(layout, street, wave).layout).boards;
    if (board === undefined) throw new Error('the wave does not compile');
    const film: { ms: number; lit: readonly boolean[] }[] = [];
    const interpreter = new Interpreter(board.table, { lamps: (ms, lit) => film.push({ ms, lit: [...lit] }) });
    interpreter.start();
    interpreter.run(300_000);
    const isGreen = (stop: number, ms: number): boolean => {
      const lamp = board.sites[stop]?.lamps.find(({ label, colour }) => label === 'Fore Street' && colour === 'green');
      const now = film.filter((it) => it.ms <= ms).at(-1);
      return now?.lit[lamp?.index ?? -1] ?? false;
    };
    for (const cycle of [1, 2, 3]) {
      for (const part of [0, 0.5, 1]) {
        for (const [index, { distance }] of street.stops.entries()) {
          // The cycle begins with the board's first tick, and a green's last millisecond is still its own.
          const at = (start: number, width: number, metres: number) =>
            1 + Math.round(1000 * (60 * cycle + start + metres / 10)) + Math.round(part * (width * 1000 - 1));
          expect(isGreen(index, at(wave.out.start, wave.out.width, distance))).toBe(true);
          expect(isGreen(index, at(wave.back.start, wave.back.width, 140 - distance))).toBe(true);
        }
      }
    }
  });
});
