/** What a country and era did not have. */
import type { Fact, Practice } from './practice.ts';

/** Kinds of site that a practice may lack. */
export type PracticeKind = 'zebra' | 'pelican' | 'crossing' | 'levelCrossing' | 'shuttle' | 'railway' | 'pedestrian';

/** Why the practice has no such thing: the source says since when or where it has. Null: it has it. */
export function missing(practice: Practice, kind: PracticeKind): Fact<boolean> | null {
  const { exists } = practice[kind];
  return exists.value ? null : exists;
}
