/** From a junction of the document to a program, its dials and lamps. */

import { toMs } from '../layout/scalars.ts';
import type { Head, Junction, Phase } from '../layout/sites.ts';
import type { Aspect, Practice } from '../practice/practice.ts';
import type { LampState, Program, Row } from '../table/model.ts';
import { checkJunction } from './checks.ts';
import { type DialPlan, planDials } from './dials.ts';
import { interstage, type PlannedInterval, planIntervals } from './intervals.ts';
import { conflictPairs, type JunctionPlan } from './plan.ts';
import { resolveJunction } from './resolve.ts';
import { type CommonCycle, holdable, type Planned, type PlannedLamp } from './site.ts';

const COLOURS = ['red', 'amber', 'green'] as const;
type Colour = (typeof COLOURS)[number];

interface PhaseLamp extends PlannedLamp {
  readonly phase: number;
  readonly colour: Colour;
}

export function planJunction(site: Junction, path: string, practice: Practice, common: CommonCycle | null): Planned {
  const { plan, findings } = resolveJunction(site, path, practice.junction);
  if (plan === null) return { plan: null, findings };
  findings.push(...checkJunction(site, plan, path, practice.junction));
  if (findings.some((it) => it.severity === 'error')) return { plan: null, findings };
  const intervals = planIntervals(plan);
  const lamps = junctionLamps(site, path);
  const dials = planDials(plan, intervals, practice.junction);
  const synced = common === null ? null : syncLast(plan, dials, common, site);
  const rows = intervals.map((interval, index): Row => {
    const states = interval.aspects.flatMap((aspect, phase) => lampsOf(lamps, phase).map((it) => show(aspect, it)));
    const dial = dials.of[index] ?? 0;
    const isLast = interval.cause.is === 'stage' && interval.cause.stage === plan.stages.length - 1;
    if (synced !== null && isLast) return { op: 'sync', min: dial, offset: synced.dials.length - 1, states };
    return { op: 'after', dial, states };
  });
  const everywhere = (aspect: Aspect): LampState[] => lamps.map((lamp) => show(aspect, lamp));
  const program: Program = {
    name: `Junction, ${plan.phases.length} phases, ${plan.stages.length} stages`,
    lamps: lamps.map((lamp) => `${plan.phases[lamp.phase]?.id} ${lamp.colour}`),
    dials: (synced?.dials ?? dials.dials).map(({ id, min, max }) => ({ name: id, min, max })),
    inputs: [],
    flash: null,
    fault: everywhere(practice.junction.fault.value),
    safe: everywhere(practice.junction.safe.value),
    conflicts: greenPairs(plan, lamps),
    rows,
  };
  return {
    plan: {
      program,
      start: 0,
      offset: synced?.start ?? toMs(site.startDelay ?? 0),
      dials: synced?.dials ?? dials.dials,
      lamps: lamps.map(({ label, colour, output, path: place }) => ({ label, colour, output, path: place })),
      inputs: [],
      rows: intervals.map((interval) => ({ label: label(interval, plan, practice) })),
      cycle: intervals.reduce((sum, it) => sum + it.ms, 0),
    },
    findings,
  };
}

/** Lamps phase by phase: those that its heads share, then those of single heads. */
function junctionLamps(site: Junction, path: string): PhaseLamp[] {
  const of = (owner: Phase | Head, phase: number, place: string): PhaseLamp[] =>
    COLOURS.flatMap((colour) => {
      const output = owner.lamps?.[colour];
      return output === undefined
        ? []
        : [{ label: owner.name, colour, output, phase, path: `${place}.lamps.${colour}` }];
    });
  return site.phases.flatMap((phase, index) => [
    ...of(phase, index, `${path}.phases[${index}]`),
    ...(site.heads ?? []).flatMap((head, at) =>
      head.phase === phase.id ? of(head, index, `${path}.heads[${at}]`) : [],
    ),
  ]);
}

function lampsOf(lamps: readonly PhaseLamp[], phase: number): PhaseLamp[] {
  return lamps.filter((lamp) => lamp.phase === phase);
}

const SHOWS: Readonly<Record<Aspect, Partial<Record<Colour, LampState>>>> = {
  red: { red: 'lit' },
  'red-with-amber': { red: 'lit', amber: 'lit' },
  green: { green: 'lit' },
  amber: { amber: 'lit' },
  dark: {},
  'flashing-red': { red: 'flash' },
  'flashing-amber': { amber: 'flash' },
};

function show(aspect: Aspect, lamp: PhaseLamp): LampState {
  return SHOWS[aspect][lamp.colour] ?? 'dark';
}

/**
 * Only green against green: the board refuses and watches pairs that are both
 * other than dark, and amber beside the other road's red with amber is no danger.
 */
function greenPairs(plan: JunctionPlan, lamps: readonly PhaseLamp[]): [number, number][] {
  const greens = (phase: number): number[] =>
    lamps.flatMap((lamp, index) => (lamp.phase === phase && lamp.colour === 'green' ? [index] : []));
  return conflictPairs(plan).flatMap(([one, other]) =>
    greens(one).flatMap((a) => greens(other).map((b): [number, number] => [a, b])),
  );
}

/**
 * On a common cycle the last stage lasts until the site's point of the cycle,
 * where the change to the first stage begins. The board starts with the first
 * stage's green, which then lasts longer once, so that the first cycle is in step.
 */
function syncLast(plan: JunctionPlan, dials: DialPlan, common: CommonCycle, site: Junction) {
  const change = interstage(plan, plan.stages.length - 1).reduce((sum, it) => sum + it.ms, 0);
  const value = toMs(site.offset ?? 0);
  const max = holdable(Math.max(common.greatest, value));
  const dial = { id: 'offset', name: 'Offset in the common cycle', min: 0, max, value };
  return { dials: [...dials.dials, dial], start: holdable((value + change) % common.cycle) };
}

function label(interval: PlannedInterval, plan: JunctionPlan, practice: Practice): string {
  const { cause, aspects } = interval;
  const who = (aspect: string): string =>
    plan.phases
      .filter((_, phase) => aspects[phase] === aspect)
      .map((phase) => phase.name)
      .join(' and ');
  switch (cause.is) {
    case 'stage':
      return `${plan.stages[cause.stage]?.name} green`;
    case 'amber':
      return `${who('amber')} ${practice.junction.amber.name.toLowerCase()}`;
    case 'red-with-amber':
      return `${who('red-with-amber')} red with amber`;
    case 'clearance':
      return aspects.every((aspect) => aspect === 'red')
        ? practice.junction.allRed.name
        : `Clearance before ${plan.stages[cause.to]?.name}`;
    case 'part':
      return `Change to ${plan.stages[cause.to]?.name}`;
  }
}
