/** From junctions of the layout to a street, and from a wave back to the layout. */
import { type Finding, hasErrors } from '../../findings/finding.ts';
import { error, note } from '../../findings/make.ts';
import { toMs } from '../../layout/scalars.ts';
import type { Layout } from '../../layout/schema.ts';
import type { Junction } from '../../layout/sites.ts';
import { practiceOf } from '../../practice/custom/custom.ts';
import { planIntervals } from '../intervals.ts';
import { seconds } from '../names.ts';
import type { JunctionPlan } from '../plan.ts';
import { resolveJunction } from '../resolve.ts';
import { checkStreet, type Direction, type Green, type Stop, type Street } from './street.ts';

/** Metres and seconds of the street. */
export interface StreetRequest {
  /** Ids of junctions in their order along the street. */
  readonly sites: readonly string[];
  /** Metres from the first, one for each site. */
  readonly distances: readonly number[];
  /** Metres a second. */
  readonly speed: Readonly<Record<Direction, number>>;
  /** Default: the longest of their common cycles and of their own. */
  readonly cycle?: number;
  /** Id of the phase along the street, one for each site. Default: the first phase of the first stage. */
  readonly phases?: Readonly<Record<Direction, readonly string[]>>;
}

interface Found {
  readonly site: Junction;
  readonly plan: JunctionPlan;
  readonly path: string;
  /** ms of its changes and greens. */
  readonly length: number;
}

/** Never throws; `street` is null when there is an error. */
export function planStreet(layout: Layout, request: StreetRequest): { street: Street | null; findings: Finding[] } {
  const findings: Finding[] = [];
  const found = request.sites.flatMap((id) => findJunction(layout, id, findings));
  if (hasErrors(findings)) return { street: null, findings };
  if (new Set(request.sites).size < request.sites.length) return { street: null, findings: [twice()] };
  if (request.distances.length !== request.sites.length) {
    return { street: null, findings: [otherCount(request.sites.length, request.distances.length)] };
  }
  const cycle = request.cycle ?? usualCycle(layout, found);
  for (const it of found) if (it.length > toMs(cycle)) findings.push(cycleTooShort(it, toMs(cycle)));
  const stops = found.map((it, index): Stop => {
    const green = (direction: Direction): Green =>
      longestGreen(it, phaseOf(it, request.phases?.[direction][index], findings), toMs(cycle));
    const { id, name } = it.site;
    return { id, name, distance: request.distances[index] ?? 0, out: green('out'), back: green('back') };
  });
  if (hasErrors(findings)) return { street: null, findings };
  const street = { name: streetName(found, request), cycle, speed: request.speed, stops };
  findings.push(...checkStreet(street), ...found.flatMap(variable));
  return { street: hasErrors(findings) ? null : street, findings };
}

function findJunction(layout: Layout, id: string, findings: Finding[]): Found[] {
  const index = layout.sites.findIndex((site) => site.id === id);
  const site = layout.sites[index];
  if (site?.kind !== 'junction') {
    findings.push(noJunction(layout, id, site?.name));
    return [];
  }
  const { practice, findings: told } = practiceOf(layout);
  if (practice === null) {
    findings.push(...told);
    return [];
  }
  const path = `sites[${index}]`;
  const resolved = resolveJunction(site, path, practice);
  findings.push(...resolved.findings);
  const { plan } = resolved;
  if (plan === null) return [];
  return [{ site, plan, path, length: planIntervals(plan).reduce((sum, it) => sum + it.ms, 0) }];
}

/** s */
function usualCycle(layout: Layout, found: readonly Found[]): number {
  const common = layout.groups?.filter((group) => found.some(({ site }) => site.group === group.id)) ?? [];
  const own = found.map(({ length }) => Math.ceil(length / 1000));
  return Math.max(...common.map((group) => group.cycle), ...(common.length > 0 ? [] : own), 0);
}

function phaseOf({ site, plan, path }: Found, wanted: string | undefined, findings: Finding[]): number {
  if (wanted === undefined) return plan.stages[0]?.phases[0] ?? 0;
  const phase = plan.phases.findIndex(({ id }) => id === wanted);
  if (phase >= 0) return phase;
  findings.push(
    error('unknown-phase', `${path}.phases`, {
      what: `${site.name} has no phase "${wanted}".`,
      why: 'The wave runs along one phase of each junction.',
      cure: `Use one of its phases: ${plan.phases.map(({ id }) => id).join(', ')}.`,
    }),
  );
  return 0;
}

/**
 * On a common cycle a junction's zero is the begin of its change to the first
 * stage, and its last stage lasts until the cycle is over. Of several greens
 * the longest counts; changes between stages in which it stays green belong to it.
 */
function longestGreen({ plan, length }: Found, phase: number, cycle: number): Green {
  const intervals = planIntervals(plan);
  const last = intervals.findIndex(({ cause }) => cause.is === 'stage' && cause.stage === plan.stages.length - 1);
  const row = [...intervals.slice(last + 1), ...intervals.slice(0, last + 1)].map((it, index, all) => ({
    green: it.aspects[phase] === 'green',
    ms: it.ms + (index === all.length - 1 ? cycle - length : 0),
  }));
  if (row.every((it) => it.green)) return { start: 0, length: cycle / 1000 };
  let best = { start: 0, length: 0 };
  let run = { start: 0, length: 0 };
  let at = 0;
  // Twice round, so that a green over the zero is whole.
  for (const it of [...row, ...row]) {
    run = it.green ? { start: run.length > 0 ? run.start : at, length: run.length + it.ms } : { start: 0, length: 0 };
    if (run.length > best.length) best = run;
    at += it.ms;
  }
  return { start: (best.start % cycle) / 1000, length: best.length / 1000 };
}

function streetName(found: readonly Found[], { phases }: StreetRequest): string {
  const [first] = found;
  const phase = first === undefined ? undefined : first.plan.phases[phaseOf(first, phases?.out[0], [])];
  return phase?.name ?? first?.site.name ?? '';
}

function noJunction(layout: Layout, id: string, name: string | undefined): Finding {
  const junctions = layout.sites.filter((site) => site.kind === 'junction').map((site) => site.id);
  return error(name === undefined ? 'unknown-site' : 'not-a-junction', 'sites', {
    what: name === undefined ? `The layout has no site "${id}".` : `${name} is no junction.`,
    why: 'A green wave runs from junction to junction.',
    cure: `Use its junctions: ${junctions.join(', ')}.`,
  });
}

function twice(): Finding {
  return error('out-of-order', 'sites', {
    what: 'A junction is named twice.',
    why: 'The junctions are met one after the other.',
    cure: 'Name each of them once.',
  });
}

function otherCount(sites: number, distances: number): Finding {
  return error('distances-and-sites', 'sites', {
    what: `There are ${sites} junctions and ${distances} distances.`,
    why: 'The wave must know where each of them is.',
    cure: 'Give one distance for each way from a junction to the next.',
  });
}

function cycleTooShort({ site, path, length }: Found, cycle: number): Finding {
  return error('cycle-too-short', path, {
    what: `${site.name} needs ${seconds(length)}, and the cycle is ${seconds(cycle)}.`,
    why: 'It would miss every other cycle.',
    cure: 'Lengthen the cycle or shorten its greens.',
  });
}

function variable({ site, plan, path }: Found): Finding[] {
  if (!plan.stages.some((stage) => stage.skip === true || stage.extend !== undefined)) return [];
  return [
    note('wave-varies', path, {
      what: `${site.name} has stages that traffic lengthens or skips.`,
      why: 'The bands are reckoned with every stage at its green of the plan.',
      cure: 'Nothing need be done; for a steady wave let its stages run by time alone.',
    }),
  ];
}
