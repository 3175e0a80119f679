/** The posts of a board's heads at the scale of the layout, equal ones together. */
import type { Load } from '../../electrics/model.ts';
import type { Layout, Site } from '../../layout/schema.ts';
import { ratioIn, toModel } from '../../scale/ratios.ts';
import type { CutPost, Lens } from './cut-drawing.ts';
import type { SheetBoard } from './model.ts';
import { type PostKind, type PostKindName, postKind } from './post-kinds.ts';

export interface PostGroup {
  readonly kind: PostKind;
  readonly post: CutPost;
  /** Lens or globe, mm on the layout. */
  readonly lens: number;
  /** How many are alike. */
  readonly count: number;
  /** Where they stand, one line for each site. */
  readonly places: readonly string[];
}

interface Head {
  readonly kind: PostKindName;
  readonly site: string;
  readonly name: string;
  /** Names of its lamps' places in the document: `red`, `left`. */
  readonly lamps: string[];
}

export function postsOf({ layout, loads }: SheetBoard): PostGroup[] {
  const groups = new Map<string, Head[]>();
  for (const head of headsOf(layout, loads)) {
    const alike = `${head.kind} ${[...head.lamps].sort().join(' ')}`;
    groups.set(alike, [...(groups.get(alike) ?? []), head]);
  }
  return [...groups.values()].flatMap((heads, index) => {
    const [first] = heads;
    if (!first) return [];
    const kind = postKind(first.kind, layout.practice);
    const mm = (metres: number): number => toModel(metres, ratioIn(layout));
    const post = postFrom(kind, first.lamps, index + 1, mm);
    return [{ kind, post, lens: mm(kind.lens.value), count: heads.length, places: placesOf(heads) }];
  });
}

function placesOf(heads: readonly Head[]): string[] {
  const sites = new Map<string, string[]>();
  for (const { site, name } of heads) sites.set(site, [...(sites.get(site) ?? []), name]);
  return [...sites].map(([site, names]) => `${site}: ${names.join('; ')}`);
}

/** Every head that has a post of a known kind, with all its lamps on this board. */
function headsOf(layout: Layout, loads: readonly Load[]): Head[] {
  const heads = new Map<string, Head>();
  for (const load of loads) {
    const site = layout.sites.find(({ id }) => id === load.site);
    if (!site) continue;
    for (const { id, name } of load.heads) {
      const kind = kindOf(site, id, load.path);
      if (kind === null) continue;
      const key = `${site.id} ${id}`;
      const head = heads.get(key) ?? { kind, site: site.name, name, lamps: [] };
      head.lamps.push(lampName(load.path));
      heads.set(key, head);
    }
  }
  return [...heads.values()];
}

/** `red`, `left`; the lamps of a list have no such name. */
function lampName(path: string): string {
  const last = path.split('.').at(-1) ?? '';
  return last.includes('[') ? 'lamp' : last;
}

function kindOf(site: Site, head: string, path: string): PostKindName | null {
  switch (site.kind) {
    case 'junction': {
      const found = site.heads?.find(({ id }) => id === head);
      const phase = site.phases.find(({ id }) => id === (found?.phase ?? head));
      return found?.kind === 'pedestrian' || phase?.kind === 'pedestrian' ? 'pedestrian' : 'vehicle';
    }
    case 'pelican':
    case 'crossing': {
      const found = site.heads?.find(({ id }) => id === head);
      const onFoot = found ? found.kind === 'pedestrian' : path.includes('.pedestrians.');
      return onFoot ? 'pedestrian' : 'vehicle';
    }
    case 'shuttle':
      return 'vehicle';
    case 'zebra':
      return 'beacon';
    case 'level-crossing':
      return 'levelCrossing';
    case 'colour-light':
      return 'colourLight';
    case 'street-lamps':
      return 'streetLamp';
    default:
      return null;
  }
}

function postFrom(kind: PostKind, lamps: readonly string[], number: number, mm: (metres: number) => number): CutPost {
  const [up, lens, pitch, thick] = [kind.up, kind.lens, kind.pitch, kind.thick].map(({ value }) => mm(value)) as [
    number,
    number,
    number,
    number,
  ];
  if (kind.isGlobe) {
    return { number, length: up, thick, head: null, lenses: [{ across: 0, up: up + lens / 2, diameter: lens }] };
  }
  // The case stands as far beyond the outer lenses as lenses stand apart from each other.
  const edge = Math.max(pitch / 2, lens * 0.75);
  const lowest = kind.from === 'lens' ? up : up + edge;
  const lenses = lensesOf(kind, lamps, { lowest, lens, pitch, apart: mm(kind.apart?.value ?? 0) });
  const heights = lenses.map((it) => it.up);
  const top = Math.max(...heights) + edge;
  const width = 2 * edge + Math.max(...lenses.map(({ across }) => 2 * Math.abs(across)));
  return { number, length: top, thick, head: { width, bottom: Math.min(...heights) - edge, top }, lenses };
}

interface Measures {
  /** Middle of the lowest lens above the ground, mm. */
  readonly lowest: number;
  readonly lens: number;
  readonly pitch: number;
  readonly apart: number;
}

/** A head has the lenses of its lamps only, at the heights that a whole head would have them. */
function lensesOf(kind: PostKind, lamps: readonly string[], { lowest, lens, pitch, apart }: Measures): Lens[] {
  const known = kind.order.filter((name) => lamps.includes(name) || (name === 'pair' && hasPair(lamps)));
  const first = Math.max(0, kind.order.indexOf(known[0] ?? ''));
  const placed = known.flatMap((name): Lens[] => {
    // A head without the lowest lamp hangs where that lamp would be.
    const height = lowest + (kind.order.indexOf(name) - first) * pitch;
    if (name !== 'pair') return [{ across: 0, up: height, diameter: lens }];
    const sides = [lamps.includes('left') ? -apart / 2 : null, lamps.includes('right') ? apart / 2 : null];
    const there = sides.filter((it): it is number => it !== null);
    return there.map((across) => ({ across: there.length === 1 ? 0 : across, up: height, diameter: lens }));
  });
  return placed.length > 0 ? placed : [{ across: 0, up: lowest, diameter: lens }];
}

const hasPair = (lamps: readonly string[]): boolean => lamps.includes('left') || lamps.includes('right');
