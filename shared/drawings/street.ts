/** The junctions of one common cycle as a street, in order along it, with the bands that its offsets give. */
import type { Finding } from '../findings/finding.ts';
import { error } from '../findings/make.ts';
import type { Layout } from '../layout/schema.ts';
import { distancesAlong } from '../scale/distances.ts';
import { bandsOf } from '../signals/progression/bands.ts';
import { planStreet } from '../signals/progression/layout.ts';
import { type TimeDistance, timeDistance } from '../signals/progression/time-distance.ts';

export interface StreetChart {
  /** Null when there is an error among the findings. */
  readonly data: TimeDistance | null;
  readonly findings: readonly Finding[];
}

/** `speed`: metres a second of the street. Never throws. */
export function streetOf(layout: Layout, siteId: string, speed: number): StreetChart {
  const index = layout.sites.findIndex((site) => site.id === siteId);
  const site = layout.sites[index];
  const group = layout.groups?.find((it) => it.id === site?.group);
  if (site === undefined || group === undefined)
    return { data: null, findings: [onItsOwn(site?.name ?? siteId, index)] };
  // Boards that share a cycle by a wire have a group each, of one name.
  const groups = layout.groups?.filter((it) => it.name === group.name).map((it) => it.id) ?? [];
  const members = layout.sites.filter((it) => it.kind === 'junction' && groups.includes(it.group ?? ''));
  const sites = alongTheStreet(members);
  const ids = sites.map((it) => it.id);
  const { metres, findings } = distancesAlong(layout, ids);
  if (metres === null) return { data: null, findings };
  const planned = planStreet(layout, { sites: ids, distances: metres, speed: { out: speed, back: speed } });
  if (planned.street === null) return { data: null, findings: planned.findings };
  const offsets = sites.map((it) => it.offset ?? 0);
  const street = { ...planned.street, name: group.name };
  return { data: timeDistance(street, { ...bandsOf(street, offsets), offsets }), findings: planned.findings };
}

type Member = Layout['sites'][number];

/** From one of the two that are furthest apart to the other; as in the file where they have no places. */
function alongTheStreet(members: readonly Member[]): Member[] {
  let ends: { from: Member; to: Member; length: number } | null = null;
  for (const from of members) {
    for (const to of members) {
      const length = Math.hypot(...step(from, to));
      if (length > (ends?.length ?? 0)) ends = { from, to, length };
    }
  }
  if (ends === null) return [...members];
  const { from, to } = ends;
  const [dx, dy] = step(from, to);
  const along = (site: Member): number => {
    const [x, y] = step(from, site);
    return x * dx + y * dy;
  };
  return [...members].sort((a, b) => along(a) - along(b));
}

function step(from: Member, to: Member): [number, number] {
  if (from.place === undefined || to.place === undefined) return [0, 0];
  return [to.place.x - from.place.x, to.place.y - from.place.y];
}

function onItsOwn(name: string, index: number): Finding {
  return error('no-common-cycle', index < 0 ? 'sites' : `sites[${index}].group`, {
    what: `${name} is on no common cycle.`,
    why: 'A time-distance chart shows junctions that run in step along a street.',
    cure: 'Put two or more junctions on one group, each with its place and its offset.',
  });
}
