/** Everything that is drawn of a layout, worked out once for each document, distance, frame and detail. */
import type { Layout } from '../../shared/layout/schema.ts';
import type { OpenSite } from '../model/document.ts';
import type { Distance } from '../model/preferences.ts';
import { type Ground, groundOf } from './ground.ts';
import { type Label, type RoadLabel, roadLabel, siteLabels } from './labels.ts';
import { marksOf, type SiteMarks } from './marks.ts';
import { roomFor } from './room.ts';
import { type Sizes, sizesFor } from './sizes.ts';

export interface Drawing {
  readonly ground: Ground;
  readonly marks: readonly SiteMarks[];
  /** One for each of the marks. */
  readonly labels: readonly Label[];
  readonly roadLabels: readonly { readonly id: string; readonly name: string; readonly label: RoadLabel }[];
  /** Radius of a lamp, mm. */
  readonly r: number;
  readonly sizes: Sizes;
  /** mm in one px at this detail. */
  readonly mm: number;
}

/** Share of its height by which a letter is wide, on average. */
const LETTER = 0.515;
const STREET_LETTER = 0.62;

/** `whole`: mm in one px when the whole plan is seen. */
export function draw(
  layout: Layout,
  sites: readonly OpenSite[],
  distance: Distance,
  whole: number,
  detail: number,
): Drawing {
  const ground = groundOf(layout);
  const room = (ground.width * ground.depth) / whole ** 2;
  const sizes = sizesFor(distance, sites.length / detail ** 2, room);
  const mm = whole / detail;
  const r = roomFor((radius) => marksOf(layout, ground, sites, radius), ground, sizes.lamp * mm);
  const marks = marksOf(layout, ground, sites, r);
  const height = sizes.name * mm * (sizes.figures ? 2.3 : 1.25);
  const labels = siteLabels(marks, ground, r, (mark) => {
    const name = sites.find(({ id }) => id === mark.id)?.names.name ?? '';
    const longest = sizes.figures ? Math.max(name.length, 12) : name.length;
    return { width: longest * LETTER * sizes.name * mm, height };
  });
  const named = sizes.road > 0 ? ground.roads.filter(({ name }) => name !== '') : [];
  const roadLabels = named.flatMap((road) => {
    const label = roadLabel(road, marks, road.name.length * STREET_LETTER * sizes.road * mm, ground.roads);
    return label ? [{ id: road.id, name: road.name, label }] : [];
  });
  return { ground, marks, labels, roadLabels, r, sizes, mm };
}

/**
 * How near one has to come for lamps to be as large as the distance wants them, as a zoom. Across the room their
 * letters are then as large as all letters there.
 */
export function nearEnough(layout: Layout, sites: readonly OpenSite[], distance: Distance, whole: number): number {
  const ground = groundOf(layout);
  const { lamp } = sizesFor(distance, 0, 0);
  for (const detail of [1, 2, 4]) {
    const most = (lamp * whole) / detail;
    const r = roomFor((radius) => marksOf(layout, ground, sites, radius), ground, most);
    const zoom = (detail * most) / r;
    // Further in, symbols are laid out anew, with more room for each.
    if (zoom < 2 * detail) return zoom;
  }
  return 8;
}
