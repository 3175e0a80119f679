/**
 * Times that run put into the plan. What was asked for is compiled again and looked at: a time counts as taken
 * only where the plan then has exactly that time, and no other time has moved.
 */
import type { Layout, Site } from '../../layout/schema.ts';
import { type CompiledSite, compileLayout } from '../compile.ts';
import { type Times, withTimes } from './fields.ts';
import { withJunctionTimes } from './junction.ts';

export interface WantedTime {
  /** Ids in the layout. */
  readonly site: string;
  readonly dial: string;
  readonly ms: number;
}

export interface LeftTime extends WantedTime {
  readonly why: string;
}

export interface Taken {
  /** The same layout where nothing could be taken. */
  readonly layout: Layout;
  readonly taken: readonly WantedTime[];
  readonly left: readonly LeftTime[];
}

export function takeTimes(layout: Layout, wanted: readonly WantedTime[]): Taken {
  const result = { layout, taken: [] as WantedTime[], left: [] as LeftTime[] };
  for (const id of new Set(wanted.map(({ site }) => site))) {
    const here = wanted.filter(({ site }) => site === id);
    const together = tryTimes(result.layout, id, here);
    if (typeof together !== 'string') {
      result.layout = together;
      result.taken.push(...here);
      continue;
    }
    for (const one of here) {
      const next = tryTimes(result.layout, id, [one]);
      if (typeof next === 'string') result.left.push({ ...one, why: next });
      else {
        result.layout = next;
        result.taken.push(one);
      }
    }
  }
  return result;
}

/** The layout with these times in one site; else why not. */
function tryTimes(layout: Layout, id: string, wanted: readonly WantedTime[]): Layout | string {
  const before = plannedTimes(layout, id);
  const site = layout.sites.find((it) => it.id === id);
  if (before === null || site === undefined) return 'The layout has no such site, or it has errors.';
  const goal = new Map([...before, ...wanted.map(({ dial, ms }) => [dial, ms] as const)]);
  let times: Times = new Map(wanted.map(({ dial, ms }) => [dial, ms]));
  // A time that follows from another one is written out in the second round, so that it stays.
  for (let round = 0; round < 2; round++) {
    const next = withSite(layout, withNewTimes(site, before, times, goal));
    const compiled = compileLayout(next);
    const worst = compiled.findings.find(({ severity }) => severity === 'error');
    if (worst) return worst.what;
    const after = plannedTimes(next, id, compiled.boards);
    const wrong = [...goal].filter(([dial, ms]) => after?.get(dial) !== ms);
    if (after?.size === goal.size && wrong.length === 0) return next;
    times = new Map([...times, ...wrong]);
  }
  return 'No field of the plan gives exactly this time by itself.';
}

function withNewTimes(site: Site, before: Times, times: Times, goal: Times): Site {
  return site.kind === 'junction' ? withJunctionTimes(site, before, times) : withTimes(site, times, goal);
}

function withSite(layout: Layout, site: Site): Layout {
  return { ...layout, sites: layout.sites.map((it) => (it.id === site.id ? site : it)) };
}

function plannedTimes(layout: Layout, id: string, boards = compileLayout(layout).boards): Times | null {
  for (const { sites, table } of boards) {
    const at = sites.findIndex((it: CompiledSite) => it.id === id);
    const dials = sites[at]?.dials;
    if (dials) return new Map(dials.map((dial, index) => [dial.id, table.sites[at]?.dials[index] ?? 0]));
  }
  return null;
}
