/** Which sites stand on a road and how. */
import type { Layout } from '../schema.ts';

export type Site = Layout['sites'][number];

/** Across one road, which runs along the site's up: it falls onto the middle of a road and turns with it. */
export function isAcross({ kind }: Site): boolean {
  return ['zebra', 'pelican', 'crossing', 'level-crossing', 'shuttle'].includes(kind);
}

/** Where roads meet. */
export function isMeeting({ kind }: Site): boolean {
  return kind === 'junction';
}
