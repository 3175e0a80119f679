/** Penmarrow three times side by side on one large board: forty lamps, two of them behind a shift register. */
import { readLayout } from '../../shared/layout/parse.ts';
import type { Layout } from '../../shared/layout/schema.ts';
import { PENMARROW } from './example.ts';

const PARTS = ['Old', 'New', 'Quay'];
/** Width of one Penmarrow, mm. */
const WIDTH = 1600;

export function fortyLamps(): Layout {
  const town = JSON.parse(PENMARROW);
  let pin = 2;
  /** The next pins of the board, in the order of the document; never the serial line. */
  const onPins = (value: unknown): unknown => {
    if (Array.isArray(value)) return value.map(onPins);
    if (typeof value !== 'object' || value === null) return value;
    if ('pin' in value) {
      const next = pin++;
      if (next > 39) {
        const { pin: _, ...rest } = value as { pin: string };
        return { ...rest, bit: next - 40 };
      }
      return { ...value, pin: `D${next}` };
    }
    return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, onPins(inner)]));
  };
  const copies = PARTS.map((part, at) => {
    const aside = at * WIDTH;
    const key = part.toLowerCase();
    return {
      roads: town.roads.map((road: { id: string; name: string; points: [number, number][] }) => ({
        ...road,
        id: `${key}-${road.id}`,
        points: road.points.map(([x, y]) => [x + aside, y]),
      })),
      sites: town.sites
        .filter((site: { kind: string }) => site.kind === 'junction' || at < 2)
        .map((site: { id: string; name: string; place: { x: number } }) => ({
          ...(onPins(site) as object),
          id: `${key}-${site.id}`,
          name: `${part} ${site.name}`,
          board: 'main',
          place: { ...site.place, x: site.place.x + aside },
        })),
    };
  });
  const { layout, findings } = readLayout({
    ...town,
    name: 'Penmarrow Forty',
    notes: undefined,
    baseboard: { width: WIDTH * PARTS.length, depth: 1200 },
    roads: copies.flatMap(({ roads }) => roads),
    sites: copies.flatMap(({ sites }) => sites),
    boards: [
      {
        id: 'main',
        name: 'Main board',
        chip: 'atmega2560',
        chain: { chips: 1, data: 'D50', clock: 'D51', latch: 'D52', enable: 'D53' },
      },
    ],
  });
  if (!layout) throw new Error(findings[0]?.what);
  return layout;
}
