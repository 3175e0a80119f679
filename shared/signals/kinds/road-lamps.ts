/** Lamps of crossings and shuttles by group, so that a row says "vehicles amber" and not a number. */

import type { Finding } from '../../findings/finding.ts';
import { warning } from '../../findings/make.ts';
import type { Lamp } from '../../layout/outputs.ts';
import type { Aspect } from '../../practice/practice.ts';
import type { LampState } from '../../table/model.ts';
import type { PlannedLamp } from '../site.ts';

export interface RoadLamp extends PlannedLamp {
  /** Lamps of one group always show the same, such as `vehicles`. */
  readonly group: string;
  /** Which of the group's lamps, such as `red` or `left`. */
  readonly part: string;
}

/** What the lamps of a group show; parts that are not named are dark. */
export type Look = Readonly<Record<string, LampState>>;
/** Groups that are not named are dark. */
export type Show = Readonly<Record<string, Look>>;

export const DARK: Look = {};
export const RED: Look = { red: 'lit' };
export const RED_WITH_AMBER: Look = { red: 'lit', amber: 'lit' };
export const AMBER: Look = { amber: 'lit' };
export const GREEN: Look = { green: 'lit' };
export const FLASHING_AMBER: Look = { amber: 'flash' };
export const FLASHING_GREEN: Look = { green: 'flash' };
export const FLASHING_RED: Look = { red: 'flash' };

const LOOKS: Readonly<Record<Aspect, Look>> = {
  red: RED,
  'red-with-amber': RED_WITH_AMBER,
  green: GREEN,
  amber: AMBER,
  dark: DARK,
  'flashing-red': FLASHING_RED,
  'flashing-amber': FLASHING_AMBER,
};

export function lookOf(aspect: Aspect): Look {
  return LOOKS[aspect];
}

export interface LampOwner {
  readonly name: string;
  readonly group: string;
  /** By part. */
  readonly lamps: Readonly<Record<string, Lamp | undefined>> | undefined;
  /** Place of `lamps` in the document. */
  readonly path: string;
}

/** The lamps of some owners in the order of `parts`; a part that is no colour is red. */
export function roadLamps(owners: readonly LampOwner[], parts: readonly string[]): RoadLamp[] {
  return owners.flatMap(({ name, group, lamps, path }) =>
    parts.flatMap((part) => {
      const output = lamps?.[part];
      if (output === undefined) return [];
      const isColour = part === 'amber' || part === 'green';
      return [{ label: name, colour: isColour ? part : 'red', output, path: `${path}.${part}`, group, part }];
    }),
  );
}

export function statesOf(lamps: readonly RoadLamp[], show: Show): LampState[] {
  return lamps.map(({ group, part }) => show[group]?.[part] ?? 'dark');
}

/** Numbers of the lamps of a group's part. */
export function lampsOf(lamps: readonly RoadLamp[], group: string, part: string): number[] {
  return lamps.flatMap((lamp, index) => (lamp.group === group && lamp.part === part ? [index] : []));
}

/** All pairs of a lamp of the one kind and a lamp of the other. */
export function pairs(ones: readonly number[], others: readonly number[]): [number, number][] {
  return ones.flatMap((one) => others.map((other): [number, number] => [one, other]));
}

export interface WantedLamp {
  readonly group: string;
  readonly part: string;
  /** Such as "the green figure". */
  readonly words: string;
  /** Where it would be written. */
  readonly path: string;
}

/** One warning for each lamp that no head of its group has. */
export function missingLamps(
  site: { readonly name: string },
  lamps: readonly RoadLamp[],
  wanted: readonly WantedLamp[],
): Finding[] {
  return wanted.flatMap(({ group, part, words, path }) => {
    if (lampsOf(lamps, group, part).length > 0) return [];
    return [
      warning('lamp-missing', path, {
        what: `${site.name} has no lamp for ${words}.`,
        why: 'Its part of the sequence passes with nothing to see.',
        cure: 'Give it a lamp with its pin, or leave it if the model has none.',
      }),
    ];
  });
}
