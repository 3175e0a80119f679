/** How far apart the sites of a street are, from their places on the baseboard. */
import type { Finding } from '../findings/finding.ts';
import { error } from '../findings/make.ts';
import type { Layout } from '../layout/schema.ts';
import { ratioIn, type ScaleOrRatio, toPrototype } from './ratios.ts';

export interface Distances {
  /** Metres of the street from the first site, in the order asked for; null when there is an error. */
  readonly metres: readonly number[] | null;
  readonly findings: Finding[];
}

/**
 * Straight lines from one site to the next: a bend between them is not seen.
 * An id that the layout does not have is an error here too.
 */
export function distancesAlong(layout: Layout, ids: readonly string[]): Distances {
  const findings: Finding[] = [];
  const places = ids.map((id) => {
    const index = layout.sites.findIndex((site) => site.id === id);
    const site = layout.sites[index];
    if (site === undefined) findings.push(unknownSite(layout, id));
    else if (site.place === undefined) findings.push(noPlace(site.name, `sites[${index}]`));
    return site?.place;
  });
  if (findings.length > 0) return { metres: null, findings };
  const legs = places.slice(1).map((place, index) => {
    const before = places[index];
    return Math.hypot((place?.x ?? 0) - (before?.x ?? 0), (place?.y ?? 0) - (before?.y ?? 0));
  });
  return { metres: fromFirst(legs, ratioIn(layout)), findings };
}

/** `legs` in mm on the layout, each from one site to the next; metres from the first site. */
export function fromFirst(legs: readonly number[], scale: ScaleOrRatio): number[] {
  const metres = [0];
  let sum = 0;
  for (const leg of legs) {
    sum += leg;
    metres.push(toPrototype(sum, scale));
  }
  return metres;
}

function unknownSite(layout: Layout, id: string): Finding {
  return error('unknown-site', 'sites', {
    what: `The layout has no site "${id}".`,
    why: 'Distances are measured between sites of the layout.',
    cure: `Use one of its sites: ${layout.sites.map((site) => site.id).join(', ')}.`,
  });
}

function noPlace(name: string, path: string): Finding {
  return error('no-place', `${path}.place`, {
    what: `${name} has no place on the baseboard.`,
    why: 'Without it nobody can tell how far it is from the next one.',
    cure: 'Give it a place, or say the distances.',
  });
}
