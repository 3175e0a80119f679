/** A whole layout from a few answers: roads, a board, and sites with their outputs, ready to be sent. */
import type { Finding } from '../../findings/finding.ts';
import { error } from '../../findings/make.ts';
import { offerById } from '../new-site/offers.ts';
import type { Board } from '../outputs.ts';
import { LAYOUT_FORMAT, LAYOUT_VERSION, type Layout, type Scale } from '../schema.ts';
import type { Lackable, Start } from './starts.ts';

export interface Answers {
  /** Of the layout. */
  readonly name: string;
  /** `custom` has no ratio here. */
  readonly scale: Exclude<Scale, 'custom'>;
  /** Street to model, such as 76.2. */
  readonly ratio: number;
  /** Id of a practice. */
  readonly practice: string;
  readonly chip: Board['chip'];
  readonly start: Start;
  readonly lacks: (kind: Lackable) => boolean;
  /** Level crossings of the practice begin with amber. */
  readonly levelCrossingAmber: boolean;
}

export type Made = { readonly layout: Layout } | { readonly findings: readonly Finding[] };

/** From kerb to kerb of a street with a lane each way, mm: common practice, no source. */
const STREET = 7300;
/** The plan stays readable from the smallest scale to the largest, mm. */
const [NARROWEST, WIDEST] = [60, 150];

/** Never throws; findings where the country and era have no such thing. */
export function makeLayout(answers: Answers): Made {
  const { start, scale, ratio, practice, chip, levelCrossingAmber } = answers;
  const sites = start.sites(answers.lacks);
  if (sites === null) return { findings: [notThere(start)] };
  const name = answers.name.trim().slice(0, 60) || start.name;
  const board: Board = { id: boardId(name), name: 'Main board', chip };
  const width = Math.round(Math.min(WIDEST, Math.max(NARROWEST, STREET / ratio)));
  const roads = start.roads.map(({ id, name: road, points }) => ({ id, name: road, width, points: [...points] }));
  let layout: Layout = {
    format: LAYOUT_FORMAT,
    version: LAYOUT_VERSION,
    name,
    scale,
    practice,
    baseboard: start.baseboard,
    ...(roads.length > 0 && { roads }),
    boards: [board],
    sites: [],
  };
  for (const site of sites) {
    const added = offerById(site.offer)?.add(layout, { name: site.name, board: board.id, levelCrossingAmber });
    if (!added) return { findings: [notThere(start)] };
    if ('findings' in added) return added;
    layout = withBusyRoad(added.layout, start.roads[0]?.name);
  }
  return { layout };
}

/** The first road has the longer greens, whichever way its junctions were found to lie. */
function withBusyRoad(layout: Layout, road: string | undefined): Layout {
  const sites = layout.sites.map((site) => {
    if (site.kind !== 'junction' || site.stages.length !== 2) return site;
    const [one, other] = site.stages.map(({ green }) => green).sort((a, b) => b - a);
    const stages = site.stages.map((stage) => ({
      ...stage,
      green: (stage.name === road ? one : other) ?? stage.green,
    }));
    return site.stages.some(({ name }) => name === road) ? { ...site, stages } : site;
  });
  return { ...layout, sites };
}

/** Of its own, so that the virtual board of another layout is not taken for this one. */
function boardId(name: string): string {
  const plain = name
    .normalize('NFD')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .slice(0, 30)
    .replace(/^-+|-+$/g, '');
  return plain === '' ? 'main-board' : `${plain}-board`;
}

function notThere(start: Start): Finding {
  return error('not-in-practice', 'practice', {
    what: `${start.name} is not part of this country and era.`,
    why: 'There was nothing of the kind.',
    cure: 'Begin with something else, or choose another country and era.',
  });
}
