/** What "New site" offers: each offer ends in a site that compiles and runs, wired on free outputs. */
import { expect, test } from 'vitest';
import { takeLargerBoard } from '../../shared/layout/new-site/larger-board.ts';
import { OFFERS, offerById } from '../../shared/layout/new-site/offers.ts';
import { takeAway } from '../../shared/layout/new-site/take-away.ts';
import { parseLayout } from '../../shared/layout/parse.ts';
import type { Layout } from '../../shared/layout/schema.ts';
import { freePins } from '../../shared/layout/templates/pins.ts';
import { writeLayout } from '../../shared/layout/write.ts';
import { compileLayout } from '../../shared/signals/compile.ts';
import { encodeTable } from '../../shared/table/encode.ts';
import { PENMARROW } from './example.ts';
import { oneOfEach, openTown } from './one-of-each.ts';

/** Penmarrow today on a board with room; `change` may spoil it. */
function town(change: (document: Record<string, never>) => void = () => {}): Layout {
  const document = JSON.parse(PENMARROW);
  document.practice = 'uk-today';
  document.boards[0].chip = 'atmega2560';
  change(document);
  const { layout, findings } = parseLayout(JSON.stringify(document));
  if (!layout) throw new Error(findings[0]?.what);
  return layout;
}

function add(layout: Layout, id: string, name?: string): { layout: Layout; siteId: string } {
  const offer = offerById(id);
  if (!offer) throw new Error(`no offer ${id}`);
  const added = offer.add(layout, { name: name ?? offer.suggestName(layout), board: layout.boards[0]?.id ?? '' });
  if ('findings' in added) throw new Error(added.findings[0]?.what);
  return added;
}

const warnings = (layout: Layout) => compileLayout(layout).findings.map(({ code, path }) => `${code} ${path}`);

test.each(OFFERS.map(({ id }) => id))('%s compiles without a finding, fits its board and survives its file', (id) => {
  const before = town();
  const { layout, siteId } = add(before, id);
  const compiled = compileLayout(layout);
  expect(compiled.findings).toEqual([]);
  const site = compiled.boards[0]?.sites.find((it) => it.id === siteId);
  const lamps = offerById(id)?.heads.flat() ?? [];
  expect(site?.lamps.map(({ colour }) => colour).sort()).toEqual([...lamps].sort());
  expect(compiled.boards[0] && encodeTable(compiled.boards[0].table).findings).toEqual([]);
  expect(parseLayout(writeLayout(layout))).toMatchObject({ layout, findings: [] });
  // What was there before is as it was.
  expect(layout.sites.slice(0, -1)).toEqual(before.sites);
});

test('one of each kind together: unique ids, names, pins and places, and no finding', () => {
  const layout = oneOfEach();
  expect(layout.sites.map(({ kind }) => kind)).toEqual(OFFERS.map(({ kind }) => kind));
  expect(warnings(layout)).toEqual([]);
  for (const values of [layout.sites.map((it) => it.id), layout.sites.map((it) => it.name)]) {
    expect(new Set(values).size).toBe(values.length);
  }
  const places = layout.sites.map(({ place }) => place ?? { x: Number.NaN, y: 0 });
  const apart = places.flatMap((a, at) => places.slice(at + 1).map((b) => Math.hypot(a.x - b.x, a.y - b.y)));
  expect(Math.min(...apart)).toBeGreaterThan(100);
});

test('the same offer twice has names and ids with a number', () => {
  const once = add(town(), 'fire');
  const twice = add(once.layout, 'fire');
  const [first, second] = twice.layout.sites.slice(-2);
  expect([first?.name, first?.id, second?.name, second?.id]).toEqual(['Fire', 'fire', 'Fire 2', 'fire-2']);
  expect(add(twice.layout, 'zebra', 'Fire').layout.sites.at(-1)?.name).toBe('Fire 3');
});

test('a crossing stands on a road, along it, and is called after it', () => {
  const { layout } = add(town(), 'pelican');
  const site = layout.sites.at(-1);
  const road = layout.roads?.find(({ name }) => site?.name === `${name} pelican`);
  expect(road?.name).toBe('Harbour Road');
  expect(site?.place).toMatchObject({ y: 960, turn: 90 });
});

test('a crossroads stands where two roads cross, with their names and arms; else across a road, with arms of its own', () => {
  const { layout } = add(openTown(), 'crossroads');
  const site = layout.sites.at(-1);
  if (site?.kind !== 'junction') throw new Error('no junction');
  expect([site.place, site.phases.map(({ name }) => name), site.heads?.map(({ arm }) => arm)]).toEqual([
    { x: 560, y: 420 },
    ['Ferry Hill', 'Parade'],
    [0, 90, 180, 270],
  ]);
  const penmarrow = add(town(), 'crossroads').layout.sites.at(-1);
  if (penmarrow?.kind !== 'junction') throw new Error('no junction');
  expect([penmarrow.place?.turn, penmarrow.heads?.map(({ arm }) => arm)]).toEqual([90, [180, 0, 90, 270]]);
});

test('lamps take the first free pins side by side, a button the last one, and D13 is no button', () => {
  const { layout } = add(
    town((document: { boards?: { chip: string }[]; sites?: unknown[] }) => {
      document.boards?.forEach((board) => {
        board.chip = 'atmega328p';
      });
      document.sites?.splice(1);
    }),
    'pelican',
  );
  expect(layout.sites.at(-1)).toMatchObject({
    vehicles: { red: { pin: 'D8' }, amber: { pin: 'D9' }, green: { pin: 'D10' } },
    pedestrians: { red: { pin: 'D11' }, green: { pin: 'D12' } },
  });
  expect(layout.inputs?.map(({ id, pin }) => [id, pin])).toEqual([[`${layout.sites.at(-1)?.id}-button`, 'A5']]);
});

test('where a chain has room, lamps of every kind go on its bits and only inputs take pins', () => {
  const town = openTown();
  const boards = town.boards.map((board) => ({
    ...board,
    chain: { chips: 8, data: 'D50', clock: 'D51', latch: 'D52' },
  }));
  const layout = oneOfEach({ ...town, boards });
  expect(warnings(layout)).toEqual([]);
  expect(JSON.stringify(layout.sites)).not.toContain('"pin"');
});

test('too few free outputs: nothing is added, and the finding names the ways out', () => {
  const layout = town((document: { boards?: { chip: string }[] }) => {
    if (document.boards?.[0]) document.boards[0].chip = 'atmega328p';
  });
  expect(freePins(layout, 'town')).toEqual(['A3', 'A4', 'A5', 'D13']);
  const added = offerById('pelican')?.add(layout, { name: 'Quay Hill pelican', board: 'town' });
  expect(added).toMatchObject({
    findings: [
      {
        code: 'too-few-outputs',
        path: 'boards[0]',
        what: 'Quay Hill pelican needs 5 outputs and 1 input; Town board has 4 free.',
      },
    ],
  });
  expect(JSON.stringify(added)).toContain('chain of shift registers');
});

test('a level crossing of an era without amber has two reds', () => {
  const layout = town((document: { practice?: string }) => {
    document.practice = 'uk-1965';
  });
  const added = offerById('level-crossing')?.add(layout, { name: 'Gates', board: 'town', levelCrossingAmber: false });
  if (!added || 'findings' in added) throw new Error('not added');
  expect(added.layout.sites.at(-1)).toMatchObject({ lights: { left: {}, right: {} } });
  expect(warnings(added.layout)).toEqual([]);
});

test('a layout without baseboard and roads gets sites without a place', () => {
  const layout = town((document: { baseboard?: unknown; roads?: unknown }) => {
    delete document.baseboard;
    delete document.roads;
  });
  const bare = { ...layout, sites: layout.sites.map(({ place: _, ...site }) => site as Layout['sites'][number]) };
  const { layout: after } = add(bare, 'pelican');
  expect(after.sites.at(-1)).not.toHaveProperty('place');
  expect(after.sites.at(-1)?.name).toBe('Pelican');
  expect(warnings(after)).toEqual([]);
});

test('taking a site away takes its own button along, and leaves one that another site asks', () => {
  const { layout, siteId } = add(town(), 'pelican');
  expect(takeAway(layout, siteId)).toEqual(town());
  const button = `${siteId}-button`;
  const other = add(layout, 'crossing');
  const asking = other.layout.sites.map((site) => (site.kind === 'crossing' ? { ...site, buttons: [button] } : site));
  const left = takeAway({ ...other.layout, sites: asking }, siteId);
  expect(left.inputs?.map(({ id }) => id)).toContain(button);
});

test('the last site of a layout stays', () => {
  const layout = town((document: { sites?: unknown[] }) => {
    document.sites?.splice(1);
  });
  expect(takeAway(layout, 'market-cross')).toBe(layout);
});

test('a larger board keeps every wire where it was, also those on pins that are written as numbers', () => {
  const small = town((document: { boards?: { chip: string }[]; sites?: { phases?: { lamps?: unknown }[] }[] }) => {
    if (document.boards?.[0]) document.boards[0].chip = 'atmega328p';
    const phase = document.sites?.[0]?.phases?.[0];
    // 17 is A3 on the small board, and D17 on the large one.
    if (phase) phase.lamps = { red: { pin: 17 }, amber: { pin: 3 }, green: { pin: 'D4' } };
  });
  const large = takeLargerBoard(small, 'town');
  expect(large.boards[0]?.chip).toBe('atmega2560');
  expect(large.sites[0]).toMatchObject({
    phases: [{ lamps: { red: { pin: 'A3' }, amber: { pin: 3 }, green: { pin: 'D4' } } }, {}],
  });
  expect(warnings(large)).toEqual([]);
  expect(add(large, 'pelican').layout.sites).toHaveLength(4);
  expect(takeLargerBoard(large, 'town')).toBe(large);
});
