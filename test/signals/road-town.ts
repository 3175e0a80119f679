/** A board of Penmarrow with a site of each kind of crossing, for long runs with inputs at random times. */
import { readLayout } from '../../shared/layout/parse.ts';
import type { Layout } from '../../shared/layout/schema.ts';
import { makeCrossing } from '../../shared/layout/templates/crossing.ts';
import { makeLevelCrossing } from '../../shared/layout/templates/level-crossing.ts';
import { makePelican } from '../../shared/layout/templates/pelican.ts';
import { allotLamps, freePins } from '../../shared/layout/templates/pins.ts';
import { makeButton, makeDetector } from '../../shared/layout/templates/road-parts.ts';
import { makeShuttle } from '../../shared/layout/templates/shuttle.ts';
import { type CompiledBoard, compileLayout } from '../../shared/signals/compile.ts';
import type { Chip } from '../../shared/table/format.ts';

export type RoadKind = 'pelican' | 'crossing' | 'near-side' | 'level-crossing' | 'shuttle';

const HEADS: Readonly<Record<RoadKind, readonly number[]>> = {
  pelican: [3, 2],
  crossing: [3, 2],
  'near-side': [3, 2],
  'level-crossing': [3],
  shuttle: [3, 3],
};

/** Inputs in the order in which the site names them. */
const INPUTS: Readonly<Record<RoadKind, readonly string[]>> = {
  pelican: ['button'],
  crossing: ['button'],
  'near-side': ['button', 'kerb', 'zone'],
  'level-crossing': ['down', 'up'],
  shuttle: ['upper', 'lower'],
};

/** Times much shorter than the street's, so that a short run goes through much. */
const QUICK: Readonly<Record<RoadKind, object>> = {
  pelican: { vehicleGreen: 3, steadyGreen: 2, flashing: 2.5, clearance: 1 },
  crossing: { vehicleGreen: 4, walk: 2, clearance: 1.5 },
  'near-side': { vehicleGreen: 3, walk: 2, clearance: 1, extension: 3 },
  'level-crossing': { amber: 2, leastRed: 3, clearAfter: 0.8 },
  shuttle: { minGreen: 2, gap: 0.7, allRed: 1.5 },
};

/** Sites made by the templates on the pins that are free, in this order; `quick` ones with times of their own. */
export function roadTown(kinds: readonly RoadKind[], chip: Chip = 'atmega2560', quick = false): CompiledBoard {
  const layout: Layout = {
    format: 'amberwick-layout',
    version: 1,
    name: 'Penmarrow',
    scale: 'OO',
    practice: 'uk-today',
    boards: [{ id: 'town', name: 'Town board', chip }],
    inputs: [],
    sites: [],
  };
  for (const kind of kinds) addSite(layout, kind);
  if (quick) for (const site of layout.sites) Object.assign(site, QUICK[site.id as RoadKind]);
  const { layout: good, findings } = readLayout(layout);
  if (good === null || findings.length > 0) throw new Error(JSON.stringify(findings));
  const compiled = compileLayout(good);
  const [board] = compiled.boards;
  if (board === undefined || (!quick && compiled.findings.length > 0))
    throw new Error(JSON.stringify(compiled.findings));
  return board;
}

function addSite(layout: Layout, kind: RoadKind): void {
  const lamps = allotLamps(layout, 'town', HEADS[kind]) ?? [];
  const ids = INPUTS[kind].map((name) => `${kind}-${name}`);
  const site = { id: kind, name: kind, board: 'town', lamps };
  const [first = '', second = '', third = ''] = ids;
  if (kind === 'pelican') layout.sites.push(makePelican({ ...site, buttons: ids }));
  if (kind === 'crossing') layout.sites.push(makeCrossing({ ...site, buttons: ids }));
  if (kind === 'near-side') {
    const seen = { kerbDetectors: [second], onCrossingDetectors: [third] };
    layout.sites.push(makeCrossing({ ...site, figures: 'near', buttons: [first], ...seen }));
  }
  if (kind === 'level-crossing') {
    layout.sites.push(makeLevelCrossing({ ...site, lamps: lamps.flat(), detectors: ids }));
  }
  if (kind === 'shuttle') layout.sites.push(makeShuttle({ ...site, detectors: [first, second] }));
  for (const id of ids) {
    const [pin = '', lamp = ''] = freePins(layout, 'town');
    const input = { id, name: id, board: 'town', pin };
    layout.inputs?.push(id.endsWith('button') ? makeButton({ ...input, wait: { pin: lamp } }) : makeDetector(input));
  }
}
