/** The lamps of a junction and what they show for each aspect. */
import type { Head, Junction, Phase } from '../../layout/sites.ts';
import type { Aspect, PedestrianClearance } from '../../practice/practice.ts';
import type { LampState } from '../../table/model.ts';
import type { PhaseAspect } from '../intervals.ts';
import { conflictPairs, type JunctionPlan } from '../plan.ts';
import type { PlannedLamp } from '../site.ts';

const COLOURS = ['red', 'amber', 'green'] as const;
type Colour = (typeof COLOURS)[number];

export interface PhaseLamp extends PlannedLamp {
  readonly phase: number;
  readonly colour: Colour;
}

/** Lamps phase by phase: those that its heads share, then those of single heads. */
export function junctionLamps(site: Junction, path: string): PhaseLamp[] {
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

type Shows = Partial<Record<Colour, LampState>>;

const SHOWS: Readonly<Record<Aspect, Shows>> = {
  red: { red: 'lit' },
  'red-with-amber': { red: 'lit', amber: 'lit' },
  green: { green: 'lit' },
  amber: { amber: 'lit' },
  dark: {},
  'flashing-red': { red: 'flash' },
  'flashing-amber': { amber: 'flash' },
};

const CLEARING: Readonly<Record<PedestrianClearance, Shows>> = {
  blackout: {},
  'flashing-red': { red: 'flash' },
  'flashing-green': { green: 'flash' },
  red: { red: 'lit' },
};

/** States of all lamps when each phase shows its aspect. */
export function statesOf(
  lamps: readonly PhaseLamp[],
  aspects: readonly PhaseAspect[],
  clearance: PedestrianClearance,
): LampState[] {
  return lamps.map((lamp) => {
    const aspect = aspects[lamp.phase] ?? 'red';
    const shows = aspect === 'clearing' ? CLEARING[clearance] : SHOWS[aspect];
    return shows[lamp.colour] ?? 'dark';
  });
}

/** The same aspect everywhere. Figures never flash with the vehicle heads after a fault: they go dark. */
export function everywhere(plan: JunctionPlan, lamps: readonly PhaseLamp[], aspect: Aspect): LampState[] {
  return lamps.map((lamp) => {
    const onFoot = plan.phases[lamp.phase]?.kind === 'pedestrian';
    return SHOWS[onFoot && aspect !== 'red' ? 'dark' : aspect][lamp.colour] ?? 'dark';
  });
}

/**
 * Only green against green: the board refuses and watches pairs that are both
 * other than dark, and amber beside the other road's red with amber is no danger.
 */
export function greenPairs(plan: JunctionPlan, lamps: readonly PhaseLamp[]): [number, number][] {
  const greens = (phase: number): number[] =>
    lamps.flatMap((lamp, index) => (lamp.phase === phase && lamp.colour === 'green' ? [index] : []));
  return conflictPairs(plan).flatMap(([one, other]) =>
    greens(one).flatMap((a) => greens(other).map((b): [number, number] => [a, b])),
  );
}
