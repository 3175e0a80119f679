/** Mutations of the document as a tree: fields and sites that are gone, doubled, exchanged, renamed, or too many. */
import { chance, type Dice, pick, shuffled, times } from '../fixtures/dice.ts';
import { type Place, placesIn, put, takeOut, valueIn } from './tree.ts';
import { NAMES, oddText, oddValue } from './values.ts';

/** Changes the document where it stands and says what was done. */
export type Mutation = (dice: Dice, document: Record<string, unknown>) => string;

const anyPlace = (dice: Dice, document: unknown): Place => pick(dice, placesIn(document));

const listsIn = (document: unknown): unknown[][] =>
  placesIn(document)
    .map(valueIn)
    .filter((value): value is unknown[] => Array.isArray(value) && value.length > 0);

const objectsIn = (document: unknown): Record<string, unknown>[] =>
  placesIn(document)
    .map(valueIn)
    .filter((value) => typeof value === 'object' && value !== null && !Array.isArray(value)) as Record<
    string,
    unknown
  >[];

const without: Mutation = (dice, document) => {
  const place = anyPlace(dice, document);
  takeOut(place);
  return `took out ${place.key}`;
};

const another: Mutation = (dice, document) => {
  const place = anyPlace(dice, document);
  const value = oddValue(dice, document, valueIn(place));
  put(place, value);
  return `put ${JSON.stringify(value)?.slice(0, 60)} at ${place.key}`;
};

const doubled: Mutation = (dice, document) => {
  const lists = listsIn(document);
  if (lists.length === 0) return 'nothing';
  const list = pick(dice, lists);
  list.splice(dice.int(0, list.length), 0, structuredClone(pick(dice, list)));
  return 'doubled an item';
};

const exchanged: Mutation = (dice, document) => {
  const [one, other] = [anyPlace(dice, document), anyPlace(dice, document)];
  const [first, second] = [structuredClone(valueIn(one)), structuredClone(valueIn(other))];
  put(one, second);
  put(other, first);
  return `exchanged ${one.key} and ${other.key}`;
};

const inAnotherOrder: Mutation = (dice, document) => {
  const lists = listsIn(document);
  if (lists.length === 0) return 'nothing';
  const list = pick(dice, lists);
  list.splice(0, list.length, ...shuffled(dice, list));
  return 'shuffled a list';
};

const renamed: Mutation = (dice, document) => {
  const place = anyPlace(dice, document);
  if (Array.isArray(place.holder)) return another(dice, document);
  const name = chance(dice, 50) ? pick(dice, NAMES) : `${place.key}${pick(dice, ['s', '_', ' ', '2'])}`;
  const value = valueIn(place);
  takeOut(place);
  put({ holder: place.holder, key: name }, value);
  return `renamed ${place.key} to ${name.slice(0, 40)}`;
};

const unknown: Mutation = (dice, document) => {
  const object = pick(dice, [document, ...objectsIn(document)]);
  const name = pick(dice, NAMES);
  put({ holder: object, key: name }, oddValue(dice, document, undefined));
  return `added ${name.slice(0, 40)}`;
};

const emptied: Mutation = (dice, document) => {
  const lists = listsIn(document);
  if (lists.length > 0) pick(dice, lists).length = 0;
  return 'emptied a list';
};

const SIZES = [{ width: 0, depth: 0 }, { width: 1e9, depth: 1 }, { width: 1e-6, depth: 1e6 }, { width: 400 }];

/** Mistakes of one place that a random hand would seldom make. */
const NAMED: readonly Mutation[] = [
  (dice, document) => {
    document.version = pick(dice, [0, -1, 2, 7, 1.5, 1e9, '1', null]);
    return `version ${document.version}`;
  },
  (dice, document) => {
    document.practice = pick(dice, ['uk-2090', 'custom', '', '__proto__', 'usa-today', 'germany-today', 'uk-1965']);
    return `practice ${document.practice}`;
  },
  (dice, document) => {
    document.scale = pick(dice, ['custom', 'Z', 'G', '1', '']);
    if (chance(dice, 50)) document.ratio = pick(dice, [0, -1, 1e-9, 1e9, 1, 1000]);
    return `scale ${document.scale}`;
  },
  (dice, document) => {
    document.baseboard = pick(dice, SIZES);
    return `baseboard ${JSON.stringify(document.baseboard)}`;
  },
  (dice, document) => {
    document.name = oddText(dice);
    return 'an odd name';
  },
  (dice, document) => {
    const { sites } = document;
    const [site] = Array.isArray(sites) && sites.length > 0 ? [pick(dice, sites)] : [];
    const isFresh = chance(dice, 50);
    const many = dice.int(20, 300);
    document.sites = times(many, (at) => ({ ...site, ...(isFresh ? { id: `s${at}`, name: `Site ${at}` } : {}) }));
    return `${many} sites, ${isFresh ? 'each of its own name' : 'all of one name'}`;
  },
  (dice, document) => {
    const { boards } = document;
    const [board] = Array.isArray(boards) ? boards : [];
    document.boards = times(dice.int(2, 40), (at) => ({ ...board, id: chance(dice, 90) ? `b${at}` : 'b0' }));
    return 'many boards';
  },
  (dice, document) => {
    document.roads = times(dice.int(1, 200), (at) => ({
      id: `r${at}`,
      name: oddText(dice).slice(0, 60) || 'Road',
      width: pick(dice, [0.1, 90, 5000]),
      points: times(dice.int(0, 6), () => [dice.int(-4000, 4000), dice.int(-4000, 4000)]),
    }));
    return 'many roads';
  },
];

export const STRUCTURE: readonly Mutation[] = [
  without,
  another,
  another,
  another,
  doubled,
  exchanged,
  inAnotherOrder,
  renamed,
  unknown,
  emptied,
  (dice, document) => pick(dice, NAMED)(dice, document),
];
