/** Posts of the street as they usually are, each measure with its source. All lengths in metres of the street. */
import { type Fact, fact } from '../../practice/fact.ts';
import { FOOT } from '../../scale/speeds.ts';

const INCH = FOOT / 12;
const HONG_KONG = 'Hong Kong road traffic regulations 1967 reg. 11 (for Britain by inference)';
const ZEBRA = 'SI 1997/2400 Sch. 1 Pt I 1(1)(b) and (d)';
const memory = (metres: number): Fact<number> => fact(metres, 'memory', 'from memory');

export interface PostKind {
  readonly name: string;
  /** Middle of the lowest lens, or foot of the globe, above the ground. */
  readonly up: Fact<number>;
  /** Lens or globe. */
  readonly lens: Fact<number>;
  /** From one lens to the next above it. */
  readonly pitch: Fact<number>;
  /** Diameter of the post. */
  readonly thick: Fact<number>;
  /** Lamps from the bottom up, by the names of their places in the document. */
  readonly order: readonly string[];
  /** Two lamps side by side, so far apart, above the one in the middle. */
  readonly apart?: Fact<number>;
  /** A globe upon the post, not a head beside it. */
  readonly isGlobe?: boolean;
}

export const POST_KINDS = {
  vehicle: {
    name: 'signal post',
    up: fact(7 * FOOT, 'seen', `${HONG_KONG}: green centre 7 ft above the road`),
    lens: fact(8.25 * INCH, 'seen', `${HONG_KONG}: lens 8 to 8¼ in`),
    pitch: fact(14 * INCH, 'seen', `${HONG_KONG}: at most 14 in from lens to lens`),
    thick: memory(0.114),
    order: ['green', 'amber', 'red'],
  },
  pedestrian: {
    name: 'pedestrian signal post',
    up: memory(2.3),
    lens: memory(0.21),
    pitch: memory(0.3),
    thick: memory(0.114),
    order: ['green', 'red'],
  },
  beacon: {
    name: 'beacon post',
    up: fact(2.6, 'derived', `${ZEBRA}: lowest part of the globe 2.1 to 3.1 m up, the middle of it`),
    lens: fact(0.305, 'derived', `${ZEBRA}: globe 275 to 335 mm, the middle of it`),
    pitch: memory(0),
    thick: memory(0.09),
    order: ['lamp'],
    isGlobe: true,
  },
  levelCrossing: {
    name: 'level crossing post',
    up: memory(2.2),
    lens: memory(0.21),
    pitch: memory(0.45),
    thick: memory(0.114),
    order: ['amber', 'pair'],
    apart: fact(2 * FOOT, 'derived', `${HONG_KONG}: reds 1 ft 9 in to 2 ft 3 in apart, the middle of it`),
  },
  colourLight: {
    name: 'colour-light post',
    up: memory(3.3),
    lens: memory(0.21),
    pitch: memory(0.3),
    thick: memory(0.15),
    order: ['red', 'yellow', 'green', 'upperYellow'],
  },
  streetLamp: {
    name: 'lamp post',
    up: memory(6),
    lens: memory(0.35),
    pitch: memory(0),
    thick: memory(0.12),
    order: ['lamp'],
    isGlobe: true,
  },
} as const satisfies Record<string, PostKind>;

export type PostKindName = keyof typeof POST_KINDS;

/** Where the measures of a kind are from, as one line. */
export function sourcesOf(kind: PostKind): string {
  const facts = [kind.up, kind.lens, kind.pitch, ...(kind.apart ? [kind.apart] : [])].filter(({ value }) => value > 0);
  const known = facts.filter(({ confidence }) => confidence !== 'memory');
  if (known.length === 0) return 'from memory';
  const works = new Map<string, string[]>();
  for (const { source } of known) {
    const [work = '', ...said] = source.split(': ');
    works.set(work, [...(works.get(work) ?? []), said.join(': ')]);
  }
  const named = [...works].map(([work, said]) => `${work}: ${said.join(', ')}`);
  return `${named.join('; ')}; ${known.length === facts.length ? 'thickness' : 'the rest'} from memory`;
}
