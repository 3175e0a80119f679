/** What a new site can be, and how it comes into the layout. */
import { capital } from '../../findings/capital.ts';
import type { Finding } from '../../findings/finding.ts';
import { error } from '../../findings/make.ts';
import type { Colour, Lamp } from '../outputs.ts';
import type { Place } from '../places.ts';
import type { Layout, Site } from '../schema.ts';
import { allot, type InputWish } from './allot.ts';
import { freeId, freeName } from './names.ts';
import { freePlace, type Stands } from './places.ts';

/** What a person says of a new site. */
export interface Wish {
  readonly name: string;
  /** Id of the board. */
  readonly board: string;
  /** Level crossings of some eras had no amber. Default: they have. */
  readonly levelCrossingAmber?: boolean;
}

export type Added = { readonly layout: Layout; readonly siteId: string } | { readonly findings: readonly Finding[] };

export interface Offer {
  readonly id: string;
  /** `Pelican crossing`. */
  readonly name: string;
  /** What it does, one sentence. */
  readonly hint: string;
  readonly kind: Site['kind'];
  /** Colours of the lamps of each head from the top; several heads may share these outputs. */
  readonly heads: readonly (readonly Colour[])[];
  /** A name that no site has, such as `Quay Hill pelican`. */
  suggestName(layout: Layout): string;
  /** Never throws; findings say what is in the way. */
  add(layout: Layout, wish: Wish): Added;
}

/** Everything that a template may want. */
export interface Parts {
  readonly id: string;
  readonly name: string;
  readonly board: string;
  readonly place?: Place;
  /** One list for each head. */
  readonly lamps: readonly (readonly Lamp[])[];
  /** Ids. */
  readonly inputs: readonly string[];
  /** Where roads lead away, from the site's up, and what they are called. */
  readonly arms: readonly { readonly angle: number; readonly road: string }[];
}

export interface Recipe extends Omit<Offer, 'suggestName' | 'add'> {
  /** After the name of the road: `pelican`; with a capital where no road goes before it. */
  readonly short: string;
  readonly stands: Stands;
  readonly inputs: readonly InputWish[];
  /** Where the wish changes the heads. */
  headsFor?(wish: Wish): Recipe['heads'];
  make(parts: Parts): Site;
}

/** Longer names crowd the plan. */
const LONGEST = 20;

export function offerOf(recipe: Recipe): Offer {
  const { id, name, hint, kind, heads, short, stands, inputs } = recipe;
  return {
    id,
    name,
    hint,
    kind,
    heads,
    suggestName: (layout) => {
      const { road } = freePlace(layout, stands);
      const own = capital(short);
      const whole = `${road} ${short}`;
      return freeName(layout, road && stands !== 'beside' && whole.length <= LONGEST ? whole : own);
    },
    add: (layout, wish) => {
      if (!layout.boards.some((board) => board.id === wish.board)) return { findings: [noBoard(layout, wish.board)] };
      const called = freeName(layout, wish.name.trim() || name);
      const siteId = freeId(layout, called);
      const wanted = (recipe.headsFor?.(wish) ?? heads).map((head) => head.length);
      const allotted = allot(layout, { id: siteId, name: called, board: wish.board, heads: wanted, inputs });
      if ('findings' in allotted) return allotted;
      const { place, arms: found } = freePlace(layout, stands);
      const arms = found.map(({ angle, road }) => ({
        angle: (angle - (place?.turn ?? 0) + 360) % 360,
        road: layout.roads?.[road]?.name ?? '',
      }));
      const ids = allotted.inputs.map((input) => input.id);
      const parts = { id: siteId, name: called, board: wish.board, lamps: allotted.lamps, inputs: ids, arms };
      const site = recipe.make({ ...parts, ...(place && { place }) });
      const added = [...(layout.inputs ?? []), ...allotted.inputs];
      return {
        layout: { ...layout, ...(added.length > 0 && { inputs: added }), sites: [...layout.sites, site] },
        siteId,
      };
    },
  };
}

function noBoard(layout: Layout, board: string): Finding {
  return error('unknown-board', 'boards', {
    what: `The layout has no board "${board}".`,
    why: 'A site runs on one of its boards.',
    cure: `Use one of the boards: ${layout.boards.map(({ id }) => id).join(', ')}.`,
  });
}
