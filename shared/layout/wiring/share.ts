/** Heads that always show the same share one output for each colour. */
import type { Lamp } from '../outputs.ts';
import type { Layout, Site } from '../schema.ts';
import { known } from '../unknown.ts';
import { type Edited, refused } from './edit.ts';
import { valueAt, withValueAt } from './path.ts';

type Lamps = Readonly<Record<string, Lamp | undefined>>;

/** Lamps that always show the same, by their paths within the site: those that all heads share, and each head's own. */
interface Alike {
  readonly shared: string;
  readonly heads: readonly string[];
}

export interface Sharing {
  /** Path of the shared lamp. */
  readonly path: string;
  /** Outputs that it makes free. */
  readonly freed: number;
}

/**
 * The lamp that is shared already, else the first head's, keeps its output; the others hang on it side by side and free
 * theirs. Lamps that differ in polarity, source, brightness or electrics stay apart. The output then carries all of
 * their currents: whether it can is for shared/electrics to say.
 */
export function shareHeads(layout: Layout, siteId: string): Edited {
  const shared = sharingOf(layout, siteId);
  const site = layout.sites.find(({ id }) => id === siteId);
  if (site === undefined || shared.sharings.length === 0) {
    return refused('nothing-to-share', 'sites', {
      what: site ? `No heads of ${site.name} are on outputs of their own.` : `The layout has no site "${siteId}".`,
      why: 'Only heads that always show the same can share an output.',
      cure: 'Add a chain of shift registers, or take the larger board.',
    });
  }
  const freed = shared.sharings.reduce((sum, it) => sum + it.freed, 0);
  const outputs = freed === 1 ? 'one output' : `${freed} outputs`;
  return { layout: shared.layout, said: `Let heads of ${site.name} share outputs: ${outputs} came free.` };
}

/** What sharing would do; no sharings where there is nothing to share. */
export function sharingOf(layout: Layout, siteId: string): { layout: Layout; sharings: Sharing[] } {
  const index = layout.sites.findIndex(({ id }) => id === siteId);
  const site = layout.sites[index];
  const groups = site === undefined ? [] : alikeIn(site);
  const sharings: Sharing[] = [];
  let next = layout;
  for (const { shared, heads } of groups) {
    const path = `sites[${index}].${shared}`;
    const own = heads.map((head) => `sites[${index}].${head}`);
    for (const colour of coloursAt(next, own)) {
      const joined = joinAt(next, path, own, colour);
      if (joined === null) continue;
      next = joined.layout;
      sharings.push({ path: `${path}.${colour}`, freed: joined.freed });
    }
    for (const head of own) {
      const left = valueAt(next, head);
      if (left !== undefined && Object.keys(left as object).length === 0) next = withValueAt(next, head, undefined);
    }
  }
  return { layout: next, sharings };
}

function alikeIn(site: Site): Alike[] {
  const own = (field: string, is: (head: Readonly<Record<string, unknown>>) => boolean): string[] => {
    const heads = 'heads' in site ? (site.heads ?? []) : [];
    return heads.flatMap((head, index) => (is(head) ? [`heads[${index}].${field}`] : []));
  };
  switch (site.kind) {
    case 'junction':
      return site.phases.map(({ id }, index) => ({
        shared: `phases[${index}].lamps`,
        heads: own('lamps', (head) => head.phase === id),
      }));
    case 'pelican':
    case 'crossing':
      return [
        { shared: 'vehicles', heads: own('lamps', (head) => head.kind === 'vehicle') },
        { shared: 'pedestrians', heads: own('lamps', (head) => head.kind === 'pedestrian') },
      ];
    case 'level-crossing':
      return [{ shared: 'lights', heads: own('lights', () => true) }];
    default:
      return [];
  }
}

function coloursAt(layout: Layout, heads: readonly string[]): string[] {
  const lamps = known(layout);
  return [...new Set(heads.flatMap((head) => Object.keys(valueAt(lamps, head) ?? {})))];
}

/** Null: nothing can join. */
function joinAt(layout: Layout, shared: string, heads: readonly string[], colour: string) {
  const lamps = heads.map((head) => (valueAt(layout, head) as Lamps | undefined)?.[colour]);
  const has = (valueAt(layout, shared) as Lamps | undefined)?.[colour];
  // A head without this lamp would get one from the shared output.
  if (has === undefined && lamps.includes(undefined)) return null;
  const kept = has ?? lamps[0];
  if (kept === undefined) return null;
  const joins = heads.filter((_, index) => {
    const lamp = lamps[index];
    return lamp !== undefined && likeness(lamp) === likeness(kept);
  });
  const freed = has === undefined ? joins.length - 1 : joins.length;
  if (freed < 1) return null;
  let next = joins.reduce((before, head) => withValueAt(before, `${head}.${colour}`, undefined), layout);
  const around = (valueAt(next, shared) as Lamps | undefined) ?? {};
  next = withValueAt(next, shared, { ...around, [colour]: kept });
  return { layout: next, freed };
}

/** Equal for lamps that one output can drive side by side. */
function likeness({ activeLow = false, source = 'led', brightness = 100, electrics = {} }: Lamp): string {
  const fields = Object.entries(electrics).sort(([a], [b]) => (a < b ? -1 : 1));
  return JSON.stringify([activeLow, source, brightness, fields]);
}
