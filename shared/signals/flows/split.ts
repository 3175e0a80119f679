/** Greens of a junction of the layout from its traffic, at the cycle at which one likes to watch it. */
import type { Finding } from '../../findings/finding.ts';
import { LONGEST_FINE_TIME } from '../../layout/scalars.ts';
import type { Layout } from '../../layout/schema.ts';
import { spareOf } from '../groups.ts';
import { findSharing, type Least, type Sharing } from './junction.ts';
import { roundShares, type SharedGreens, shareOut } from './share.ts';
import * as told from './told.ts';
import { practicalCycle, type Stream, type Webster, webster } from './webster.ts';

/** Times in seconds. */
export interface SplitRequest {
  /** For each stage the streams that have right of way in it. */
  readonly stages: readonly (readonly Stream[])[];
  /** Of the whole cycle. Default: from the changes of the junction, each without its amber, and 2 s for each start. */
  readonly lostTime?: number;
  /** The cycle to watch. Default: the junction's common cycle, else the optimum within the practical range. */
  readonly cycle?: number;
}

export interface StageSplit {
  readonly id: string;
  readonly name: string;
  /** y, flow / saturation of its busiest stream. */
  readonly ratio: number;
  /** Effective green by Webster at the watched cycle, s. */
  readonly effective: number;
  /** The green that this means on the heads, s. */
  readonly wanted: number;
  /** The green to set, s: whole seconds, minimum greens kept. */
  readonly green: number;
}

export interface Split {
  readonly site: string;
  readonly webster: Webster;
  /** s; what greens and changes add up to, and the time to spare where its board follows another one's beat. */
  readonly cycle: number;
  readonly stages: readonly StageSplit[];
}

/** Never throws. `split` is null when there is an error; notes say what was bent and why. */
export function splitJunction(
  layout: Layout,
  siteId: string,
  request: SplitRequest,
): { split: Split | null; findings: Finding[] } {
  const { sharing, findings } = findSharing(layout, siteId);
  if (sharing === null) return { split: null, findings };
  const { plan, path } = sharing;
  const fail = (...more: Finding[]) => ({ split: null, findings: [...findings, ...more] });
  if (request.stages.length !== plan.stages.length) {
    return fail(told.otherCount(sharing.site.name, path, plan.stages.length, request.stages.length));
  }
  const lost = lostTimes(sharing, request.lostTime);
  const traffic = plan.stages.map((stage, index) => ({ name: stage.name, streams: request.stages[index] ?? [] }));
  const found = webster(traffic, sum(lost) / 1000, `${path}.stages`);
  findings.push(...found.findings);
  if (found.result === null) return fail();
  const common = layout.groups?.find((group) => group.id === sharing.site.group);
  const asked = request.cycle ?? common?.cycle;
  if (asked !== undefined && !(asked > 0 && asked <= LONGEST_FINE_TIME)) return fail(told.badCycle(path));
  const shortest = sum(sharing.changes) + sum(shortestGreens(sharing.leasts, plan.stages.length));
  const usual = Math.round(practicalCycle(found.result.optimum)) * 1000;
  const cycle = asked === undefined ? Math.max(usual, shortest) : Math.round(asked * 100) * 10;
  const spare = common?.syncIn === undefined ? 0 : Math.ceil(spareOf(cycle) / 1000) * 1000;
  const shared = shareGreens(sharing, found.result, lost, cycle - spare);
  if (shared === null) return fail(told.cycleTooShort(sharing.site.name, path, cycle, shortest + spare));
  findings.push(
    ...(spare > 0 ? [told.spareLeft(sharing.site.name, path, spare)] : []),
    ...told.bent(plan, path, shared),
    ...told.watched(sharing.site.name, path, cycle / 1000, found.result, shared, request.stages),
    ...told.variable(plan, path),
    ...told.otherCycle(layout, sharing.site, path, cycle / 1000),
  );
  const stages = plan.stages.map(({ id, name }, index) => ({
    id,
    name,
    ratio: found.result?.ratios[index] ?? 0,
    effective: (shared.effective[index] ?? 0) / 1000,
    wanted: (shared.wanted[index] ?? 0) / 1000,
    green: (shared.greens[index] ?? 0) / 1000,
  }));
  return { split: { site: siteId, webster: found.result, cycle: cycle / 1000, stages }, findings };
}

/** The layout with these greens; the same layout where the junction or one of its stages is gone. */
export function applySplit(layout: Layout, siteId: string, split: Split): Layout {
  const greens = new Map(split.stages.map((stage) => [stage.id, stage.green]));
  const sites = layout.sites.map((site) => {
    if (site.id !== siteId || site.kind !== 'junction') return site;
    if (site.stages.length !== greens.size || !site.stages.every((stage) => greens.has(stage.id))) return site;
    return { ...site, stages: site.stages.map((stage) => ({ ...stage, green: greens.get(stage.id) ?? stage.green })) };
  });
  return { ...layout, sites };
}

function sum(values: readonly number[]): number {
  return values.reduce((all, value) => all + value, 0);
}

/** ms; a lost time of the user's own is shared out as the junction's would be. */
function lostTimes({ lost }: Sharing, own: number | undefined): number[] {
  if (own === undefined) return [...lost];
  const all = sum(lost);
  return lost.map((it) => own * 1000 * (all > 0 ? it / all : 1 / lost.length));
}

/** The least whole seconds that keep everything, ms. */
function shortestGreens(leasts: readonly Least[], count: number): number[] {
  const greens = Array.from({ length: count }, () => 0);
  for (const least of inOrder(leasts)) raise(greens, least);
  return greens;
}

/** Those of one stage first: longer ones then ask for less. */
function inOrder(leasts: readonly Least[]): Least[] {
  return [...leasts].sort((a, b) => a.stages.length - b.stages.length);
}

/** Lengthens the longest of the stages until they keep the least, in whole seconds. */
function raise(greens: number[], { stages, ms }: Least): void {
  const short = ms - stages.reduce((all, stage) => all + (greens[stage] ?? 0), 0);
  const [longest] = [...stages].sort((a, b) => (greens[b] ?? 0) - (greens[a] ?? 0));
  if (short > 0 && longest !== undefined) greens[longest] = (greens[longest] ?? 0) + Math.ceil(short / 1000) * 1000;
}

/** Null when the least greens do not fit. */
function shareGreens(
  { changes, leasts, plan }: Sharing,
  { ratios, total }: Webster,
  lost: readonly number[],
  cycle: number,
): SharedGreens | null {
  const available = cycle - sum(lost);
  const effective = ratios.map((y) => available * (total > 0 ? y / total : 1 / ratios.length));
  /** Effective green less the green on the heads. */
  const over = changes.map((change, index) => change - (lost[index] ?? 0));
  const wanted = effective.map((green, index) => green - (over[index] ?? 0));
  const bounds = shortestGreens(
    leasts.filter((least) => least.stages.length === 1),
    plan.stages.length,
  );
  // Each round keeps one more of the leasts for good.
  for (let round = 0; round <= leasts.length; round++) {
    const shares = shareOut(
      available,
      ratios,
      bounds.map((bound, index) => bound + (over[index] ?? 0)),
    );
    if (shares === null) return null;
    const greens = inWholeSeconds(
      shares.map((share, index) => share - (over[index] ?? 0)),
      cycle - sum(changes),
      bounds,
    );
    const unmet = inOrder(leasts).find(({ stages, ms }) => ms > stages.reduce((all, it) => all + (greens[it] ?? 0), 0));
    if (unmet === undefined) return { effective, wanted, greens };
    for (const stage of unmet.stages) bounds[stage] = Math.floor((greens[stage] ?? 0) / 1000) * 1000;
    raise(bounds, unmet);
  }
  return null;
}

/** What is left over of a whole second goes to the longest. */
function inWholeSeconds(values: readonly number[], total: number, bounds: readonly number[]): number[] {
  const whole = Math.floor(total / 1000);
  const rounded = roundShares(
    values.map((value) => value / 1000),
    whole,
    bounds.map((bound) => bound / 1000),
  ).map((value) => value * 1000);
  const longest = rounded.indexOf(Math.max(...rounded));
  return rounded.map((value, index) => value + (index === longest ? total - whole * 1000 : 0));
}
