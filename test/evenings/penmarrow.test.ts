/** A long evening: the example town built from nothing, by hand, until it runs and is kept. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, expect, test } from 'vitest';
import { parseLayout } from '../../shared/layout/parse.ts';
import type { Layout } from '../../shared/layout/schema.ts';
import { lampPlaces } from '../../shared/layout/wiring/lamps.ts';
import { compileLayout } from '../../shared/signals/compile.ts';
import { PENMARROW } from '../panel/example.ts';
import { openRig, type Rig } from '../panel/rig.ts';
import { Person } from './person.ts';

const LONG = 600_000;

let rig: Rig;
afterEach(() => rig.close());

type Spot = readonly [number, number];

/** mm from the left and from the back. Fore Street is there already, at 400. */
const ROADS: readonly (readonly [name: string, ...points: Spot[]])[] = [
  ['Quay Hill', [640, 0], [640, 680]],
  ['Harbour Road', [640, 680], [1190, 680]],
  ['Chapel Lane', [1000, 400], [1000, 0]],
];

const SITES = [
  ['Crossroads', 'Market Cross'],
  ['T-junction', 'Chapel Corner'],
  ['Zebra crossing', 'Harbour Crossing'],
] as const;

const TIMES = [
  ['Market Cross', 'Fore Street', '18'],
  ['Market Cross', 'Quay Hill', '12'],
  ['Chapel Corner', 'Fore Street', '25'],
  ['Chapel Corner', 'Chapel Lane', '9'],
] as const;

function layoutOf(text: string): Layout {
  const { layout, findings } = parseLayout(text);
  if (!layout) throw new Error(findings[0]?.what);
  return layout;
}

type Junction = Extract<Layout['sites'][number], { kind: 'junction' }>;

/** `Fore Street 18`: which street has how long, in whatever order. */
function greensOf({ phases, stages }: Junction): string[] {
  const nameOf = (id: string | undefined): string => phases.find((phase) => phase.id === id)?.name ?? '';
  return stages.map((stage) => `${nameOf(stage.phases[0])} ${stage.green}`).sort();
}

/** What makes the town this town; places and pins are everybody's own. */
function essence(layout: Layout) {
  const { boards } = compileLayout(layout);
  return {
    scale: layout.scale,
    practice: layout.practice,
    chip: layout.boards.map(({ chip }) => chip),
    roads: (layout.roads ?? []).map(({ name }) => name).sort(),
    sites: layout.sites.map((site) => ({
      kind: site.kind,
      name: site.name,
      heads: site.kind === 'junction' ? (site.heads?.length ?? 0) : 0,
      greens: site.kind === 'junction' ? greensOf(site) : [],
    })),
    lamps: lampPlaces(layout, layout.boards[0]?.id ?? '').map(({ output }) => output !== null),
    runs: boards.map(({ table }) => table.sites.length),
  };
}

test(
  'Penmarrow from nothing: three roads and a lane, two junctions and a zebra, its times, wired, running and kept',
  async () => {
    rig = await openRig({ welcomed: false });
    const { page } = rig;
    const person = new Person(page);
    await person.clicks('Make a layout of your own');
    await person.clicks('OO, 1:76.2', 'radio');
    await person.clicks('United Kingdom, mid-1960s', 'radio');
    await person.clicks('Board with an ATmega328P', 'radio');
    await person.clicks('A zebra crossing', 'radio');
    await person.writes('Name of the layout', 'Penmarrow');
    await person.seesBoard('runs this layout, kept');

    // The streets: one is there and gets its name, the others are drawn point by point.
    await person.letsGo();
    await person.presses('a');
    await person.clicks('Main Street');
    await page.locator('#road-name').fill('Fore Street');
    await person.presses('Enter');
    await person.reads(/^Named Main Street Fore Street\.$/);
    for (const [name, ...points] of ROADS) {
      await person.drawsRoad(points);
      await person.reads(/^Drew /);
      await page.locator('#road-name:focus').waitFor();
      await person.types(name);
      await person.presses('Enter');
      await person.reads(new RegExp(`^Named .* ${name}\\.$`));
    }
    await person.clicks('Done');

    for (const [card, name] of SITES) {
      await person.letsGo();
      await person.presses('n');
      await person.clicks(card, 'radio');
      await person.writes('Name', name);
      await person.reads(new RegExp(`^Added ${name}`));
    }
    // The crossing that the evening began with is not of this town.
    await person.takesInHand('Main Street zebra');
    await person.presses('Shift+N');
    await person.reads(/^Took Main Street zebra away\.$/);

    await person.presses('Shift+S');
    await person.seesBoard('runs this layout, not kept');
    for (const [site, street, time] of TIMES) {
      await person.takesInHand(site);
      const green = page.getByRole('spinbutton', { name: `Green, ${street}`, exact: true });
      const dial = ((await green.getAttribute('id')) ?? '').replace('dial-', '');
      await person.setsTime(dial, time);
      await person.seesTime(dial, `${time}.0 s`);
      await person.letsGo();
    }
    await person.presses('e');
    await person.clicks('Take running times into the plan');
    await person.reads(/^Took into the plan: /);
    await person.presses('Escape', 'k');
    await person.reads(/^Kept on /);
    await person.seesBoard('runs this layout, kept');
    await person.seesLampsGlow();

    await person.savesAs('Penmarrow');
    const file = join(rig.folder, 'data', 'Layouts', 'Penmarrow.amberwick');
    const built = layoutOf(readFileSync(file, 'utf8'));
    expect(essence(built)).toEqual(essence(layoutOf(PENMARROW)));
    expect(compileLayout(built).findings).toEqual([]);
    expect(rig.complaints).toEqual([]);
  },
  LONG,
);
