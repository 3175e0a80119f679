/** What a country and era did not have, and the words for it. */
import type { Finding } from '../findings/finding.ts';
import { warning } from '../findings/make.ts';
import type { Fact, Practice } from './practice.ts';

/** Kinds of site that a practice may lack. */
export type PracticeKind = 'zebra' | 'pelican' | 'crossing' | 'levelCrossing' | 'shuttle' | 'railway' | 'pedestrian';

const CALLED: Readonly<Record<PracticeKind, string>> = {
  zebra: 'Zebra crossings with beacons',
  pelican: 'Pelican crossings',
  crossing: 'Signal-controlled pedestrian crossings of this kind',
  levelCrossing: 'Road lights at level crossings',
  shuttle: 'Signals at road works',
  railway: 'Colour-light railway signals',
  pedestrian: 'Signals for people on foot at junctions',
};

/** Why the practice has no such thing: the source says since when or where it has. Null: it has it. */
export function missing(practice: Practice, kind: PracticeKind): Fact<boolean> | null {
  const { exists } = practice[kind];
  return exists.value ? null : exists;
}

/** The warning for a site of a kind that the practice lacks; `path` is the site's. Null: it has it. */
export function missingFinding(practice: Practice, kind: PracticeKind, path: string): Finding | null {
  const fact = missing(practice, kind);
  if (fact === null) return null;
  return warning('not-in-practice', path, {
    what: `${CALLED[kind]} are not part of the practice "${practice.name}".`,
    why: `A visitor from there would wonder (${fact.source}).`,
    cure: `Leave it if you like it so, ${instead(practice, kind)}or choose another practice.`,
  });
}

/** What people crossed by, where a crossing is asked for that was not there. */
function instead(practice: Practice, kind: PracticeKind): string {
  if (kind !== 'zebra' && kind !== 'pelican' && kind !== 'crossing') return '';
  if (kind !== 'zebra' && practice.zebra.exists.value) return 'make it a zebra crossing, ';
  return practice.crossing.exists.value ? 'make it a signal-controlled crossing, ' : '';
}
