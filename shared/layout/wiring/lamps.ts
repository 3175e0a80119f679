/** All lamps of a board as the document has them, whatever kind of site they belong to. */
import type { Lamp } from '../outputs.ts';
import type { Layout } from '../schema.ts';
import { known } from '../unknown.ts';
import { boardOf, outputNumber } from './numbers.ts';
import { valueAt } from './path.ts';

export interface LampPlace {
  /** Place in the document: `sites[0].phases[0].lamps.red`. */
  readonly path: string;
  /** Id of its board. */
  readonly board: string;
  /** Id of its site; null for indicators of inputs and sync outputs. */
  readonly site: string | null;
  /** What it is called in a sentence: `Market Cross, Fore Street red`. */
  readonly name: string;
  /** The lamps of one head have the same: the path of the head's lamps. */
  readonly head: string;
  /** As in the board image; null where the document names none that the board has. */
  readonly output: number | null;
  readonly lamp: Lamp;
}

/** Fields that hold lamps by colour or place, or a list of them. */
const GROUPS = ['lamps', 'lights', 'vehicles', 'pedestrians', 'beacons'];
/** Fields that are one lamp. */
const SINGLE = ['indicator', 'syncOut'];

/**
 * In the order of the document: site by site, head by head; then indicators and sync outputs. Fields that this program
 * does not know may look like lamps, and are none; what a lamp has of them is in it.
 */
export function lampPlaces(layout: Layout, boardId: string): LampPlace[] {
  const board = boardOf(layout, boardId);
  if (board === null) return [];
  const { sites, inputs = [], groups = [] } = known(layout);
  const lists = { sites, inputs, groups };
  return Object.entries(lists).flatMap(([list, items]) =>
    [...items].flatMap((item, index) => {
      if (item.board !== boardId) return [];
      return found(item, `${list}[${index}]`, [item.name]).map(({ path, head, names }): LampPlace => {
        const site = list === 'sites' ? item.id : null;
        const lamp = valueAt(layout, path) as Lamp;
        return { path, board: boardId, site, head, lamp, name: nameOf(names), output: outputNumber(board, lamp) };
      });
    }),
  );
}

export function lampAt(layout: Layout, path: string): LampPlace | null {
  for (const { id } of layout.boards) {
    const place = lampPlaces(layout, id).find((it) => it.path === path);
    if (place !== undefined) return place;
  }
  return null;
}

interface Found {
  readonly path: string;
  readonly head: string;
  readonly names: readonly string[];
}

/** `names`: what stands around the value, from outside in. */
function found(value: unknown, path: string, names: readonly string[]): Found[] {
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, item]): Found[] => {
    if (typeof item !== 'object' || item === null) return [];
    const place = `${path}.${key}`;
    if (SINGLE.includes(key)) {
      return [{ path: place, head: place, names: [...names, key === 'syncOut' ? 'sync' : key] }];
    }
    if (GROUPS.includes(key)) {
      const around = key === 'vehicles' || key === 'pedestrians' ? [...names, key] : names;
      return lampsIn(item, place, around);
    }
    if (!Array.isArray(item)) return [];
    return item.flatMap((it, index) => found(it, `${place}[${index}]`, [...names, ...ownName(it)]));
  });
}

function lampsIn(group: object, path: string, names: readonly string[]): Found[] {
  if (Array.isArray(group)) {
    return group.map((lamp, index) => ({
      path: `${path}[${index}]`,
      head: path,
      names: [...names, ...ownName(lamp)],
    }));
  }
  return Object.entries(group).flatMap(([key, lamp]) =>
    lamp === undefined ? [] : [{ path: `${path}.${key}`, head: path, names: [...names, spaced(key)] }],
  );
}

function ownName(value: unknown): string[] {
  const { name, id } = (value ?? {}) as { name?: unknown; id?: unknown };
  return typeof name === 'string' ? [name] : typeof id === 'string' ? [id] : [];
}

/** `upperYellow` as two words. */
function spaced(key: string): string {
  return key.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);
}

/** The site, then all that leads to the lamp in it. */
function nameOf([first = '', ...rest]: readonly string[]): string {
  return rest.length === 0 ? first : `${first}, ${rest.join(' ')}`;
}
