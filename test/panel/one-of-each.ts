/** A town with one site of each kind, made by the offers themselves on free places and outputs. */
import { OFFERS } from '../../shared/layout/new-site/offers.ts';
import { takeAway } from '../../shared/layout/new-site/take-away.ts';
import { readLayout } from '../../shared/layout/parse.ts';
import type { Layout } from '../../shared/layout/schema.ts';

/** Roads that meet in fours and threes, a board with room, and a lamp, because a layout has at least one site. */
export function openTown(): Layout {
  const { layout, findings } = readLayout({
    format: 'amberwick-layout',
    version: 1,
    name: 'Penmarrow Parade',
    scale: 'OO',
    practice: 'uk-today',
    baseboard: { width: 2700, depth: 1900 },
    roads: [
      road('parade', 'Parade', [
        [0, 420],
        [2700, 420],
      ]),
      road('mill-lane', 'Mill Lane', [
        [0, 1420],
        [2700, 1420],
      ]),
      road('ferry-hill', 'Ferry Hill', [
        [560, 0],
        [560, 1900],
      ]),
      road('old-road', 'Old Road', [
        [1900, 420],
        [1900, 1900],
      ]),
    ],
    boards: [
      {
        id: 'main',
        name: 'Main board',
        chip: 'atmega2560',
        chain: { chips: 2, data: 'D50', clock: 'D51', latch: 'D52' },
      },
    ],
    sites: [
      { kind: 'flicker', id: 'first', name: 'First', board: 'main', effect: 'fire', lamps: [{ id: 'f', pin: 'D13' }] },
    ],
  });
  if (!layout) throw new Error(findings[0]?.what);
  return layout;
}

function road(id: string, name: string, points: [number, number][]) {
  return { id, name, width: 104, points };
}

/** Ends without the lamp that the town began with. */
export function oneOfEach(town = openTown()): Layout {
  const board = town.boards[0]?.id ?? '';
  const all = OFFERS.reduce((layout, offer) => {
    const added = offer.add(layout, { name: offer.suggestName(layout), board });
    if ('findings' in added) throw new Error(added.findings[0]?.what);
    return added.layout;
  }, town);
  return takeAway(all, town.sites[0]?.id ?? '');
}
