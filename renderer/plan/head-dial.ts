/** The dial that a person means who presses a head. */
import type { Layout } from '../../shared/layout/schema.ts';
import type { OpenSite } from '../model/document.ts';
import { turnable } from '../model/room-dials.ts';
import type { HeadMark } from './marks.ts';

/** Number of the dial: the green of the head's stream where there is one, else the first that can be turned; null: none. */
export function dialOfHead(layout: Layout, site: OpenSite, head: HeadMark): number | null {
  const dials = turnable(site);
  const wanted = idsOf(layout.sites[site.index], head.stream);
  const found = dials.find((dial) => wanted.includes(site.names.dials[dial]?.id ?? ''));
  return found ?? dials[0] ?? null;
}

function idsOf(site: Layout['sites'][number] | undefined, stream: string | undefined): string[] {
  if (!site || stream === undefined) return [];
  switch (site.kind) {
    case 'junction':
      return site.stages.filter(({ phases }) => phases.includes(stream)).map(({ id }) => `green-${id}`);
    case 'shuttle':
      return [`green-${stream}`];
    case 'pelican':
    case 'crossing':
      return stream === 'pedestrian' ? ['steady-green', 'walk'] : ['vehicle-green'];
    default:
      return [];
  }
}
