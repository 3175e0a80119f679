/** A junction from what a person knows: how many arms, which road is busier, whether people cross at the signals. */
import type { Colour, Lamp } from '../outputs.ts';
import type { Head, Junction, Phase, Stage } from '../sites.ts';
import { figureLamps, type NewSite, siteOf, vehicleLamps } from './road-parts.ts';

export interface JunctionWish {
  /**
   * Where the arms lie, degrees clockwise from the site's up: two to four of them. The two that are most
   * nearly opposite each other are the first road. Two arms take turns, as at a narrow bridge.
   */
  readonly arms: readonly number[];
  /** Names of the first and the second road. */
  readonly roads?: readonly [string, string];
  /** Which road gets the longer green. Default: equal. */
  readonly busier?: 'first' | 'second' | 'equal';
  /** A stage in which all traffic stands and people cross. */
  readonly pedestrians?: boolean;
  /** A green arrow for one turn off the first road, lit before the rest may go. */
  readonly filter?: boolean;
  /** One direction of the first road is stopped early, so that the other can turn across it. */
  readonly earlyCutOff?: boolean;
}

export interface NewJunction extends NewSite, JunctionWish {
  /** Outputs of the heads of `junctionHeads`. */
  readonly lamps: readonly (readonly Lamp[])[];
  /** Ids of inputs that ask for the pedestrian stage. Without any it comes in every cycle. */
  readonly buttons?: readonly string[];
  /**
   * Ids of inputs, one for each road: traffic makes the greens longer, and the second road gets one only when
   * somebody waits. Not with a filter, an early cut-off or two arms, whose stages belong together.
   */
  readonly detectors?: readonly [string, string];
}

type Part = 'first' | 'cut' | 'second' | 'filter' | 'foot';

/** Greens of a model, seconds: common practice, no source. Seven for the figures is the USA's least walk. */
const GREENS = { busy: 20, equal: 15, quiet: 12, tail: 5, figure: 7 } as const;
const MAXIMUM = { busy: 40, equal: 30, quiet: 25 } as const;

/** Colours of the lamps of each phase from the top, for whoever allots outputs; opposing heads share them. */
export function junctionHeads(wish: JunctionWish): readonly (readonly Colour[])[] {
  return partsOf(wish).map((part): readonly Colour[] => {
    if (part === 'filter') return ['green'];
    return part === 'foot' ? ['red', 'green'] : ['red', 'amber', 'green'];
  });
}

/** Times other than greens are the practice's. Outputs that are missing are left out, and the compiler says so. */
export function makeJunction(wish: NewJunction): Junction {
  const parts = partsOf(wish);
  const outputs = (part: Part): readonly Lamp[] => wish.lamps[parts.indexOf(part)] ?? [];
  const detectors =
    parts.includes('filter') || parts.includes('cut') || wish.arms.length < 3 ? undefined : wish.detectors;
  return {
    kind: 'junction',
    ...siteOf(wish),
    phases: parts.map((part) => phaseOf(wish, part, outputs(part), detectors)),
    heads: headsOf(wish, parts),
    stages: stagesOf(wish, parts, detectors !== undefined),
  };
}

function partsOf({ arms, pedestrians, filter, earlyCutOff }: JunctionWish): Part[] {
  const crossing = arms.length > 2;
  return [
    'first',
    ...(earlyCutOff && crossing ? (['cut'] as const) : []),
    'second',
    ...(filter && crossing ? (['filter'] as const) : []),
    ...(pedestrians ? (['foot'] as const) : []),
  ];
}

const IDS: Readonly<Record<Part, string>> = { first: 'A', cut: 'C', second: 'B', filter: 'F', foot: 'P' };

function phaseOf(wish: NewJunction, part: Part, lamps: readonly Lamp[], detectors: NewJunction['detectors']): Phase {
  const base = { id: IDS[part], name: nameOf(wish, part) };
  const demand = (ids: readonly (string | undefined)[]) => {
    const named = ids.flatMap((id) => id ?? []);
    return named.length > 0 ? { demand: named } : {};
  };
  switch (part) {
    case 'foot':
      return { ...base, kind: 'pedestrian', lamps: figureLamps(lamps), ...demand(wish.buttons ?? []) };
    case 'filter':
      return { ...base, lamps: lamps[0] === undefined ? {} : { green: lamps[0] } };
    case 'cut':
      return { ...base, lamps: vehicleLamps(lamps) };
    default:
      return { ...base, lamps: vehicleLamps(lamps), ...demand([detectors?.[part === 'first' ? 0 : 1]]) };
  }
}

function nameOf({ arms, roads }: JunctionWish, part: Part): string {
  const [first, second] = roads ?? (arms.length > 2 ? ['First road', 'Second road'] : ['One end', 'Other end']);
  switch (part) {
    case 'first':
      return first;
    case 'second':
      return second;
    case 'cut':
      return `${first}, stopped early`;
    case 'filter':
      return `${first}, filter`;
    case 'foot':
      return 'People on foot';
  }
}

function stagesOf(wish: NewJunction, parts: readonly Part[], extended: boolean): Stage[] {
  const has = (part: Part): boolean => parts.includes(part);
  const ids = (...wanted: Part[]): string[] => wanted.filter(has).map((part) => IDS[part]);
  const [first, second] = loads(wish);
  const extend = (load: keyof typeof MAXIMUM) => (extended ? { extend: { maximum: MAXIMUM[load] } } : {});
  const green = (load: 'busy' | 'equal' | 'quiet'): number => (extended ? 7 : GREENS[load]);
  const called = (wish.buttons ?? []).length > 0 ? { skip: true } : {};
  const [one, other] = [nameOf(wish, 'first'), nameOf(wish, 'second')];
  const stages: (Omit<Stage, 'id'> | null)[] = [
    { name: one, phases: ids('first', 'cut', 'filter'), green: green(first), ...extend(first) },
    has('cut') ? { name: `${one}, turning`, phases: ids('first', 'filter'), green: GREENS.tail } : null,
    // Before the second road, so that the arrow of its last stage goes over into the first road's green.
    has('foot') ? { name: nameOf(wish, 'foot'), phases: ids('foot'), green: GREENS.figure, ...called } : null,
    {
      name: other,
      phases: ids('second'),
      green: green(second),
      ...(extended ? { skip: true } : {}),
      ...extend(second),
    },
    has('filter') ? { name: `${other} with filter`, phases: ids('second', 'filter'), green: GREENS.tail } : null,
  ];
  return stages.flatMap((stage) => stage ?? []).map((stage, index) => ({ id: String(index + 1), ...stage }));
}

function loads({ busier }: JunctionWish): ['busy' | 'equal' | 'quiet', 'busy' | 'equal' | 'quiet'] {
  if (busier === 'first') return ['busy', 'quiet'];
  return busier === 'second' ? ['quiet', 'busy'] : ['equal', 'equal'];
}

function headsOf(wish: JunctionWish, parts: readonly Part[]): Head[] {
  const [through, rest] = roadsOf(wish.arms);
  const head = (part: Part, arm: number, name: string): Head[] =>
    parts.includes(part) ? [{ id: `${IDS[part]}-${arm}`, name, phase: IDS[part], arm }] : [];
  const vehicles = wish.arms.flatMap((arm) => {
    const isFirst = wish.arms.length > 2 ? through.includes(arm) : arm === wish.arms[0];
    const isCut = parts.includes('cut') && arm === through[1];
    const part = isFirst ? (isCut ? 'cut' : 'first') : 'second';
    return head(part, arm, `${nameOf(wish, isFirst ? 'first' : 'second')}, from ${arm}°`);
  });
  const filter = head('filter', through[0] ?? 0, nameOf(wish, 'filter'));
  const figures = [...through, ...rest].flatMap((arm) =>
    head('foot', arm, `Across the arm at ${arm}°`).map((it): Head => ({ ...it, kind: 'pedestrian' })),
  );
  return [...vehicles, ...filter, ...figures];
}

/** The two arms most nearly opposite each other, and the others. */
function roadsOf(arms: readonly number[]): [through: number[], rest: number[]] {
  const off = ([a, b]: readonly [number, number]): number => Math.abs(180 - (Math.abs(a - b) % 360));
  const pairs = arms.flatMap((a, index) => arms.slice(index + 1).map((b): [number, number] => [a, b]));
  const best = pairs.reduce((one, other) => (off(other) < off(one) ? other : one), pairs[0] ?? [0, 180]);
  return [best, arms.filter((arm) => !best.includes(arm))];
}
