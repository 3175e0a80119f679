/** Copies of a site: beside itself, on another board, or in another layout. Outputs and pins are allotted anew. */
import type { Finding } from '../../findings/finding.ts';
import { error } from '../../findings/make.ts';
import { allot } from '../new-site/allot.ts';
import { freeId, freeName } from '../new-site/names.ts';
import { freePlace, type Stands } from '../new-site/places.ts';
import type { Input } from '../outputs.ts';
import type { Place } from '../places.ts';
import { isAcross } from '../plan-edit/kinds.ts';
import type { Layout, Site } from '../schema.ts';
import { placeBeside } from './beside.ts';
import { type Parcel, parcelOf } from './parcel.ts';
import { type Hang, inputsIn, withHangs, withInputs } from './parts.ts';

export type Copied = { readonly layout: Layout; readonly siteId: string } | { readonly findings: readonly Finding[] };

export interface CopyWish {
  /** Default: the name of the original, with a number. */
  readonly name?: string;
  /** Id of the board. Default: that of the original. */
  readonly board?: string;
}

/** Next to the original. On the same board it stays in the common cycle and asks the buttons that others ask, too. */
export function copySite(layout: Layout, siteId: string, wish: CopyWish = {}): Copied {
  const original = layout.sites.find(({ id }) => id === siteId);
  const parcel = parcelOf(layout, siteId);
  if (original === undefined || parcel === null) return { findings: [noSite(siteId)] };
  const board = wish.board ?? original.board;
  const isSame = board === original.board;
  const others = [layout.sites.filter((site) => site !== original), layout.groups ?? [], layout.boards].flatMap(
    inputsIn,
  );
  const own = isSame ? parcel.inputs.filter(({ id }) => !others.includes(id)) : parcel.inputs;
  const { group, offset } = original as Site & { offset?: number };
  const common = isSame && group !== undefined ? { group, ...(offset !== undefined && { offset }) } : {};
  const site = { ...parcel.site, ...common } as Site;
  const place = placeBeside(layout, original);
  return lay(
    layout,
    { site, inputs: own },
    { name: wish.name ?? withoutNumber(original.name), board, ...(place && { place }) },
  );
}

/** From a template or from text that was copied; it takes a free place of its kind. */
export function pasteSite(
  layout: Layout,
  parcel: Parcel,
  wish: { readonly name: string; readonly board: string },
): Copied {
  const { place } = freePlace(layout, standsOf(parcel.site));
  return lay(layout, parcel, { ...wish, ...(place && { place }) });
}

/** A copy of `Signal 2` is another `Signal`. */
function withoutNumber(name: string): string {
  return name.replace(/ \d+$/, '');
}

interface Lay {
  readonly name: string;
  readonly board: string;
  readonly place?: Place;
}

function lay(layout: Layout, { site, inputs }: Parcel, { name: wanted, board, place }: Lay): Copied {
  if (!layout.boards.some(({ id }) => id === board)) return { findings: [noBoard(layout, board)] };
  const name = freeName(layout, wanted.trim() || site.name);
  const id = freeId(layout, name);
  const parts = { site, indicators: inputs.map(({ indicator }) => indicator) };
  const heads = headsOf(parts);
  const wishes = inputs.map((input) => ({ id: suffixOf(input.id, site.id), name: input.name, is: 'button' as const }));
  const allotted = allot(layout, { id, name, board, heads: heads.map((head) => head.length), inputs: wishes });
  if ('findings' in allotted) return allotted;
  const hangs = new Map(heads.flat().map((bit, at) => [bit, allotted.lamps.flat()[at] ?? {}]));
  const laid = withHangs(parts, ({ bit }): Hang => hangs.get(bit ?? -1) ?? {});
  const made = madeInputs(layout, inputs, { site, id, name, board, laid: laid.indicators, pins: allotted.inputs });
  const renames = new Map(inputs.map((input, at) => [input.id, made[at]?.id ?? input.id]));
  const copy = {
    ...withInputs(laid.site, (input) => renames.get(input) ?? input),
    id,
    name,
    board,
    ...(place && { place }),
  } as Site;
  const all = [...(layout.inputs ?? []), ...made];
  return { layout: { ...layout, ...(all.length > 0 && { inputs: all }), sites: [...layout.sites, copy] }, siteId: id };
}

/** The bits of the parcel, those of one head together. */
function headsOf(parts: object): number[][] {
  const heads: number[][] = [];
  const seen = new Set<number>();
  let last: object | null = null;
  withHangs(parts, (hang, head) => {
    const bit = hang.bit ?? -1;
    if (!seen.has(bit)) {
      if (head !== last || heads.length === 0) heads.push([]);
      heads.at(-1)?.push(bit);
      seen.add(bit);
      last = head;
    }
    return hang;
  });
  return heads;
}

interface Made {
  readonly site: Site;
  readonly id: string;
  readonly name: string;
  readonly board: string;
  readonly laid: readonly Input['indicator'][];
  readonly pins: readonly Input[];
}

function madeInputs(layout: Layout, inputs: readonly Input[], { site, id, name, board, laid, pins }: Made): Input[] {
  const made: Input[] = [];
  for (const [at, input] of inputs.entries()) {
    const rest = input.name.startsWith(site.name) ? input.name.slice(site.name.length) : `, ${input.name}`;
    const taken = { ...layout, inputs: [...(layout.inputs ?? []), ...made] };
    const indicator = laid[at];
    made.push({
      ...input,
      id: freeId(taken, `${id} ${suffixOf(input.id, site.id)}`),
      name: `${name}${rest}`.slice(0, 60),
      board,
      pin: pins[at]?.pin ?? input.pin,
      ...(indicator && { indicator }),
    });
  }
  return made;
}

/** `button` for `quay-hill-button` of the site `quay-hill`. */
function suffixOf(input: string, site: string): string {
  return input.startsWith(`${site}-`) ? input.slice(site.length + 1) : input;
}

function standsOf(site: Site): Stands {
  if (site.kind !== 'junction') return isAcross(site) ? 'road' : 'beside';
  return new Set((site.heads ?? []).filter(({ kind }) => kind !== 'pedestrian').map(({ arm }) => arm)).size || 4;
}

function noSite(site: string): Finding {
  return error('no-such-site', 'sites', {
    what: `The layout has no site "${site}".`,
    why: 'It has changed since the site was chosen.',
    cure: 'Choose the site again.',
  });
}

function noBoard(layout: Layout, board: string): Finding {
  return error('unknown-board', 'boards', {
    what: `The layout has no board "${board}".`,
    why: 'A site runs on one of its boards.',
    cure: `Use one of the boards: ${layout.boards.map(({ id }) => id).join(', ')}.`,
  });
}
