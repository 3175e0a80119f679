/** The lamp of the document behind a place such as `sites[0].phases[1].lamps.red`, and the heads that hang on it. */
import type { Lamp } from '../layout/outputs.ts';
import type { Layout, Site } from '../layout/schema.ts';
import { stepsOf, valueAt, valueIn } from '../layout/wiring/path.ts';

export interface HangingHead {
  readonly id: string;
  readonly name: string;
}

type Owner = { readonly id: string; readonly name?: string | undefined };

/** Null where nothing stands there. The place is the compiler's, so what stands there is a lamp. */
export function lampAt(layout: Layout, path: string): Lamp | null {
  const value = valueAt(layout, path);
  return isObject(value) ? (value as Lamp) : null;
}

/**
 * Heads side by side on one output. Outputs of a phase, or of all heads of a crossing, feed every head of theirs
 * that has no output of its own for that lamp; a layout that names no heads has one.
 */
export function headsAt(layout: Layout, path: string): HangingHead[] {
  const steps = stepsOf(path);
  const [list, index] = steps;
  if (list === 'inputs') return [named(layout.inputs?.[Number(index)])];
  if (list === 'groups') return [named(layout.groups?.[Number(index)])];
  const site = layout.sites[Number(index)];
  if (site === undefined) return [named(undefined)];
  const owner = valueIn(site, steps.slice(2, 4));
  const shared = sharedBy(site, steps.slice(2));
  if (shared !== null && shared.heads.length > 0) return shared.heads.map(named);
  if (shared !== null) return [named(shared.owner)];
  return [named(isObject(owner) && 'id' in owner ? (owner as unknown as Owner) : site)];
}

/** Heads on an output that several may share; null for an output of one head alone. `place` is within the site. */
function sharedBy(site: Site, place: readonly (string | number)[]): { owner: Owner; heads: Owner[] } | null {
  const lamp = String(place.at(-1));
  switch (site.kind) {
    case 'junction': {
      const phase = place[0] === 'phases' ? site.phases[Number(place[1])] : undefined;
      if (phase === undefined) return null;
      const heads = (site.heads ?? []).filter(
        (head) =>
          head.phase === phase.id &&
          !hasOwn(head.lamps, lamp) &&
          // Figures have no amber.
          !(head.kind === 'pedestrian' && lamp === 'amber'),
      );
      return { owner: phase, heads };
    }
    case 'pelican':
    case 'crossing': {
      if (place[0] !== 'vehicles' && place[0] !== 'pedestrians') return null;
      const kind = place[0] === 'vehicles' ? 'vehicle' : 'pedestrian';
      const owner = { id: place[0], name: kind === 'vehicle' ? 'Vehicles' : 'Pedestrians' };
      return { owner, heads: (site.heads ?? []).filter((head) => head.kind === kind && !hasOwn(head.lamps, lamp)) };
    }
    case 'level-crossing': {
      if (place[0] !== 'lights') return null;
      const heads = (site.heads ?? []).filter((head) => !hasOwn(head.lights, lamp));
      return { owner: { id: 'road', name: 'Road' }, heads };
    }
    default:
      return null;
  }
}

function hasOwn(lamps: object | undefined, lamp: string): boolean {
  return isObject(lamps) && lamps[lamp] !== undefined;
}

function named(owner: Owner | undefined): HangingHead {
  const id = owner?.id ?? 'unknown';
  return { id, name: owner?.name ?? id };
}

function isObject(value: unknown): value is Record<string | number, unknown> {
  return typeof value === 'object' && value !== null;
}
