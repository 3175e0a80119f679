/** A junction of the document with its names looked up and its defaults filled in. */
import { type Finding, hasErrors } from '../findings/finding.ts';
import { error } from '../findings/make.ts';
import { toMs } from '../layout/scalars.ts';
import type { Junction } from '../layout/sites.ts';
import type { JunctionPractice, PedestrianPractice, Practice } from '../practice/practice.ts';
import { duplicateIds } from './names.ts';
import type { Extend, JunctionPlan, PlannedDelay, PlannedPhase, PlannedStage } from './plan.ts';

/** From memory: the extension of a vehicle detector that controllers are set to. */
const USUAL_GAP = 1500;

export type JunctionRules = Pick<Practice, 'junction' | 'pedestrian'>;

export interface Resolved {
  /** Null when there is an error among the findings. */
  readonly plan: JunctionPlan | null;
  readonly findings: Finding[];
}

export function resolveJunction(site: Junction, path: string, practice: JunctionRules): Resolved {
  const names = new Names(site, path);
  const findings: Finding[] = [
    ...duplicateIds(site.phases, `${path}.phases`, 'phase'),
    ...duplicateIds(site.stages, `${path}.stages`, 'stage'),
    ...duplicateIds(site.heads ?? [], `${path}.heads`, 'head'),
  ];
  site.heads?.forEach((head, index) => {
    names.look(head.phase, `${path}.heads[${index}].phase`);
  });
  const stages = site.stages.map((stage, index) => planStage(site, stage, index, names));
  const times = changeTimes(site, practice.junction);
  const phases = site.phases.map((phase) => planPhase(site, phase, times, practice));
  const delays = (site.delays ?? []).flatMap((delay, index): PlannedDelay[] => {
    const place = `${path}.delays[${index}]`;
    const phase = names.look(delay.phase, `${place}.phase`);
    const from = delay.from === undefined ? null : names.lookStage(delay.from, `${place}.from`);
    const to = delay.to === undefined ? null : names.lookStage(delay.to, `${place}.to`);
    return phase === null ? [] : [{ phase, from, to, start: toMs(delay.start ?? 0), end: toMs(delay.end ?? 0) }];
  });
  const rest = site.rest === undefined ? null : names.lookStage(site.rest, `${path}.rest`);
  const declared = declaredPairs(site, names, path, findings);
  const intergreens = phases.map((leaver, from) =>
    phases.map((gainer, to) => {
      if (from === to) return null;
      const given = declared.get(pairKey(from, to));
      const apart = !stages.some((stage) => stage.phases.includes(from) && stage.phases.includes(to));
      if (given === undefined && !declared.has(pairKey(to, from)) && !apart) return null;
      return given ?? usualIntergreen(leaver, gainer, times);
    }),
  );
  findings.push(...names.findings);
  const plan = { phases, stages, intergreens, delays, rest };
  return { plan: hasErrors(findings) ? null : plan, findings };
}

function planStage(site: Junction, stage: Junction['stages'][number], index: number, names: Names): PlannedStage {
  const place = `${names.path}.stages[${index}]`;
  const phases = names.stage(stage.phases, index);
  const calledBy = stage.calledBy?.map((id, at) => names.look(id, `${place}.calledBy[${at}]`));
  const { extend } = stage;
  const detectors = (): string[] =>
    phases.flatMap((phase) => {
      const here = site.phases[phase];
      return here?.kind === 'pedestrian' ? [] : (here?.demand ?? []);
    });
  const planned: Extend | null =
    extend === undefined
      ? null
      : {
          gap: toMs(extend.gap ?? site.gap ?? USUAL_GAP / 1000),
          maximum: toMs(extend.maximum),
          detectors: [...new Set(extend.detectors ?? detectors())],
        };
  return {
    id: stage.id,
    name: stage.name ?? names.list(stage.phases),
    phases,
    green: toMs(stage.green),
    skip: stage.skip ?? false,
    ...(calledBy === undefined ? {} : { calledBy: calledBy.filter((it) => it !== null) }),
    ...(planned === null ? {} : { extend: planned }),
  };
}

/**
 * The clearance of people on foot ends where the next may start, so no all-red
 * follows it; their own green has no red with amber before it.
 */
function usualIntergreen(leaver: PlannedPhase, gainer: PlannedPhase, times: ChangeTimes): number {
  const end = leaver.kind === 'pedestrian' ? leaver.amber : times.amber + times.allRed;
  return end + (gainer.kind === 'pedestrian' ? 0 : times.redWithAmber);
}

interface ChangeTimes {
  readonly amber: number;
  readonly redWithAmber: number;
  readonly allRed: number;
}

/** The junction's own times or the practice's, ms. */
export function changeTimes(site: Junction, practice: JunctionPractice): ChangeTimes {
  const own = (seconds: number | undefined, usual: number): number => (seconds === undefined ? usual : toMs(seconds));
  return {
    amber: own(site.amber, practice.amber.usual.value),
    redWithAmber: practice.redWithAmber === null ? 0 : own(site.redWithAmber, practice.redWithAmber.usual.value),
    allRed: own(site.allRed, practice.allRed.usual.value),
  };
}

function planPhase(
  site: Junction,
  phase: Junction['phases'][number],
  times: ChangeTimes,
  practice: JunctionRules,
): PlannedPhase {
  const { id, name, demand = [] } = phase;
  if (phase.kind === 'pedestrian')
    return { id, name, kind: 'pedestrian', demand, ...onFoot(phase, practice.pedestrian) };
  const heads = (site.heads ?? []).filter((head) => head.phase === phase.id);
  const lamps = [phase.lamps, ...heads.map((head) => head.lamps)];
  const amber = lamps.some((it) => it?.amber !== undefined);
  const red = lamps.some((it) => it?.red !== undefined);
  return {
    id,
    name,
    demand,
    minGreen: phase.minGreen === undefined ? practice.junction.minGreen.value : toMs(phase.minGreen),
    // A phase without an amber lamp (a filter arrow) has nothing to show for these times.
    amber: amber ? times.amber : 0,
    redWithAmber: amber && red ? times.redWithAmber : 0,
  };
}

function onFoot(phase: Junction['phases'][number], practice: PedestrianPractice) {
  return {
    minGreen: phase.minGreen === undefined ? leastFigure(practice) : toMs(phase.minGreen),
    amber: phase.clearance === undefined ? practice.clearance.usual.value : toMs(phase.clearance),
    redWithAmber: 0,
  };
}

/** A usual green without a published source is a default, and nothing to be held to. */
function leastFigure({ green }: PedestrianPractice): number {
  if (green.range !== null) return green.range.value[0];
  return ['seen', 'quoted', 'derived'].includes(green.usual.confidence) ? green.usual.value : green.dial.value[0];
}

const pairKey = (from: number, to: number): string => `${from} ${to}`;

/** Pairs that the document names: with an intergreen, or null where only the conflict is stated. */
function declaredPairs(
  site: Junction,
  names: Names,
  path: string,
  findings: Finding[],
): Map<string, number | undefined> {
  const pairs = new Map<string, number | undefined>();
  const declare = (from: number | null, to: number | null, place: string, ms: number | undefined): void => {
    if (from === null || to === null) return;
    if (from === to) findings.push(conflictWithItself(place));
    else pairs.set(pairKey(from, to), ms);
  };
  site.conflicts?.forEach(([one, other], index) => {
    const place = `${path}.conflicts[${index}]`;
    declare(names.look(one, `${place}[0]`), names.look(other, `${place}[1]`), place, undefined);
  });
  for (const [from, row] of Object.entries(site.intergreens ?? {})) {
    const leaver = names.look(from, `${path}.intergreens.${from}`);
    if (leaver === null) continue;
    for (const [to, seconds] of Object.entries(row)) {
      const place = `${path}.intergreens.${from}.${to}`;
      declare(leaver, names.look(to, place), place, toMs(seconds));
    }
  }
  return pairs;
}

function conflictWithItself(path: string): Finding {
  return error('conflict-with-itself', path, {
    what: 'A phase is said to conflict with itself.',
    why: 'It could never be green.',
    cure: 'Name two different phases.',
  });
}

/** Looks phases up and collects what is not found. */
class Names {
  readonly findings: Finding[] = [];
  private readonly site: Junction;
  readonly path: string;

  constructor(site: Junction, path: string) {
    this.site = site;
    this.path = path;
  }

  look(id: string, path: string): number | null {
    const index = this.site.phases.findIndex((phase) => phase.id === id);
    if (index >= 0) return index;
    this.findings.push(
      error('unknown-phase', path, {
        what: `${this.site.name} has no phase "${id}".`,
        why: 'Heads, stages and intergreens speak of the phases of their junction.',
        cure: `Use one of its phases: ${this.site.phases.map((phase) => phase.id).join(', ')}.`,
      }),
    );
    return null;
  }

  lookStage(id: string, path: string): number | null {
    const index = this.site.stages.findIndex((stage) => stage.id === id);
    if (index >= 0) return index;
    this.findings.push(
      error('unknown-stage', path, {
        what: `${this.site.name} has no stage "${id}".`,
        why: 'Delays and the stage to wait in speak of the stages of their junction.',
        cure: `Use one of its stages: ${this.site.stages.map((stage) => stage.id).join(', ')}.`,
      }),
    );
    return null;
  }

  list(ids: readonly string[]): string {
    return ids.map((id) => this.site.phases.find((phase) => phase.id === id)?.name ?? id).join(' and ');
  }

  stage(ids: readonly string[], stage: number): number[] {
    const place = `${this.path}.stages[${stage}].phases`;
    if (ids.length === 0) {
      this.findings.push(
        error('empty-stage', place, {
          what: 'The stage has no phases.',
          why: 'Nobody would have right of way in it.',
          cure: 'Name its phases or take the stage out; for a longer red, raise the intergreens.',
        }),
      );
    }
    const found = ids.map((id, index) => this.look(id, `${place}[${index}]`));
    return [...new Set(found.filter((phase) => phase !== null))].sort((a, b) => a - b);
  }
}
