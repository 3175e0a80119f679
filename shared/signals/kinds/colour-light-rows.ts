/**
 * The rows of colour-light signals. Red comes in the tick in which the next
 * section is occupied; a clearer aspect is looked for only from red or when a
 * section that decides has changed.
 */
import { capital } from '../../findings/capital.ts';
import type { RailwayAspect } from '../../practice/practice.ts';
import type { Condition, LampState } from '../../table/model.ts';
import type { PlannedDial } from '../dials.ts';
import type { ShownAspect } from './colour-light-aspects.ts';
import { ALWAYS, jump, type Step } from './lamp-parts.ts';

/** From the most restrictive on; the last is green. */
type Aspects = readonly ShownAspect[];

export interface Drive {
  readonly steps: readonly Step[];
  /** Name of the step to begin with. */
  readonly start: string;
  readonly dials: readonly PlannedDial[];
  readonly inputs: readonly { readonly id: string; readonly key: string }[];
  /** The first two dials are the ends of a random time. */
  readonly random: boolean;
}

const active = (...inputs: number[]): Condition => ({ kind: 'active', inputs });
const inactive = (...inputs: number[]): Condition => ({ kind: 'inactive', inputs });
const changed = (count: number): Condition => ({ kind: 'changed', inputs: [...Array(count).keys()] });

function label(aspect: RailwayAspect): string {
  return capital(aspect.replace('-', ' '));
}

function labelAt(aspects: Aspects, at: number): string {
  return label(aspects[at]?.aspect ?? 'red');
}

/** Dials: at once, overlap. Section n of the list has detector n; `at` is the aspect that it brings when occupied. */
export function bySections(
  aspects: Aspects,
  sections: readonly { readonly id: string; readonly at: number }[],
  dials: readonly PlannedDial[],
): Drive {
  const [atOnce, overlap] = [0, 1];
  const states = (at: number): readonly LampState[] => aspects[at]?.states ?? [];
  const green = aspects.length - 1;
  const later = sections.slice(1);
  const steps: Step[] = [
    // Chosen anew whenever a section has changed.
    ...sections.map(({ at }, input): Step => {
      const choice = jump(active(input), `aspect ${at}`, `${labelAt(aspects, at)} if section ${at + 1} is occupied`);
      return input === 0 ? { ...choice, at: 'choose' } : choice;
    }),
    {
      label: `${labelAt(aspects, green)}: all clear`,
      row: {
        op: 'until',
        min: atOnce,
        when: sections.length > 1 ? changed(sections.length) : active(0),
        states: states(green),
      },
    },
    ...(later.length > 0 ? [jump(ALWAYS, 'choose', 'Look again')] : []),
    ...later.flatMap(({ at }, index): Step[] => [
      {
        at: `aspect ${at}`,
        label: `${labelAt(aspects, at)}: section ${at + 1} is occupied`,
        row: { op: 'until', min: atOnce, when: changed(index + 2), states: states(at) },
      },
      jump(ALWAYS, 'choose', 'Look again'),
    ]),
    {
      at: 'aspect 0',
      label: `${labelAt(aspects, 0)}: section 1 is occupied`,
      row: { op: 'until', min: atOnce, when: inactive(0), states: states(0) },
    },
    {
      label: `${labelAt(aspects, 0)}: overlap`,
      row: { op: 'untilMax', min: atOnce, max: overlap, when: active(0), states: states(0) },
    },
  ];
  const inputs = sections.map(({ id, at }) => ({ id, key: `sections[${at}]` }));
  return { steps, start: 'aspect 0', dials, inputs, random: false };
}

/** Dials: at once, section. A train that follows brings red back at any moment. */
export function byPassing(aspects: Aspects, passing: string, dials: readonly PlannedDial[]): Drive {
  const [atOnce, section] = [0, 1];
  const green = aspects.length - 1;
  const behind = aspects.slice(0, green).flatMap(({ aspect, states }, at): Step[] => [
    {
      label: `${label(aspect)}: the train is in section ${at + 1}`,
      row: { op: 'untilMax', min: atOnce, max: section, when: active(0), states },
    },
    jump(active(0), 'red', 'Red if another train passes'),
  ]);
  const steps: Step[] = [
    {
      label: `${labelAt(aspects, green)}: until a train passes`,
      row: { op: 'until', min: atOnce, when: active(0), states: aspects[green]?.states ?? [] },
    },
    {
      at: 'red',
      label: 'Red: a train passes',
      row: { op: 'until', min: atOnce, when: inactive(0), states: aspects[0]?.states ?? [] },
    },
    ...behind,
  ];
  return { steps, start: 'red', dials, inputs: [{ id: passing, key: 'passing' }], random: false };
}

/** Red behind the train, then step by step; `section` is the number of its dial. */
function clearing(aspects: Aspects, section: number): Step[] {
  return aspects.slice(0, -1).map(({ aspect, states }, at) => ({
    label: `${label(aspect)}: the train is in section ${at + 1}`,
    row: { op: 'after', dial: section, states },
  }));
}

/** Dials: shortest and longest time between trains, section. */
export function byTime(aspects: Aspects, dials: readonly PlannedDial[]): Drive {
  const states = aspects.at(-1)?.states ?? [];
  const waiting: Step = {
    at: 'green',
    label: 'Green: until the next train',
    row: { op: 'random', low: 0, high: 1, states },
  };
  return { steps: [waiting, ...clearing(aspects, 2)], start: 'green', dials, inputs: [], random: true };
}

/** Dials: at once, moment of the train in the common cycle, section. */
export function bySync(aspects: Aspects, dials: readonly PlannedDial[]): Drive {
  const states = aspects.at(-1)?.states ?? [];
  const waiting: Step = {
    at: 'green',
    label: 'Green: until the train of this cycle',
    row: { op: 'sync', min: 0, offset: 1, states },
  };
  return { steps: [waiting, ...clearing(aspects, 2)], start: 'green', dials, inputs: [], random: false };
}
