/** Posts of the street by kind of head, made of the sizes that the scale knows. All lengths in metres of the street. */
import { type Fact, fact } from '../../practice/fact.ts';
import { SIZES, type SizeGroup } from '../../scale/sizes.ts';

export interface PostKind {
  readonly name: string;
  /** What `up` is measured to: the middle of the lowest lens, the lowest part of the head or globe. */
  readonly from: 'lens' | 'bottom';
  readonly up: Fact<number>;
  /** Lens or globe. */
  readonly lens: Fact<number>;
  /** From one lens to the next above it. */
  readonly pitch: Fact<number>;
  /** Diameter of the post. */
  readonly thick: Fact<number>;
  /** Lamps from the bottom up, by the names of their places in the document; `pair` is left and right. */
  readonly order: readonly string[];
  /** The pair is so far apart. */
  readonly apart: Fact<number> | null;
  /** A globe upon the post, not a head beside it. */
  readonly isGlobe: boolean;
}

export type PostKindName = 'vehicle' | 'pedestrian' | 'beacon' | 'levelCrossing' | 'colourLight' | 'streetLamp';

const memory = (metres: number): Fact<number> => fact(metres, 'memory', 'from memory');
const NONE = memory(0);

/** A size of the scale's list; a test asks for each of them. */
function sizeOf(group: SizeGroup['id'], id: string): Fact<number> {
  return SIZES.find((it) => it.id === group)?.sizes.find((it) => it.id === id)?.usual ?? NONE;
}

const VEHICLE = { order: ['green', 'amber', 'red'], apart: null, isGlobe: false } as const;

/** `practice` of the layout: signals of the 1960s stand lower and closer than those of today. */
export function postKind(kind: PostKindName, practice: string): PostKind {
  switch (kind) {
    case 'vehicle':
      return vehicle(practice);
    case 'pedestrian':
      return { ...today(), name: 'pedestrian signal post', order: ['green', 'red'] };
    case 'beacon':
      return {
        ...{ name: 'beacon post', from: 'bottom', up: sizeOf('zebra', 'globe-bottom'), lens: sizeOf('zebra', 'globe') },
        ...{ pitch: NONE, thick: memory(0.09), order: ['lamp'], apart: null, isGlobe: true },
      };
    case 'levelCrossing':
      return {
        ...{ name: 'level crossing post', from: 'lens', up: memory(2.2), lens: sizeOf('level-crossing', 'lens') },
        ...{ pitch: memory(0.45), thick: memory(0.114), order: ['amber', 'pair'] },
        ...{ apart: sizeOf('level-crossing', 'apart'), isGlobe: false },
      };
    case 'colourLight':
      return {
        ...{ name: 'colour-light signal post', from: 'lens', up: memory(3.3), lens: memory(0.21), pitch: memory(0.3) },
        ...{ thick: memory(0.15), order: ['red', 'yellow', 'green', 'upperYellow'], apart: null, isGlobe: false },
      };
    case 'streetLamp':
      return {
        ...{ name: 'lamp post', from: 'bottom', up: sizeOf('street', 'lamp-post'), lens: memory(0.35), pitch: NONE },
        ...{ thick: memory(0.12), order: ['lamp'], apart: null, isGlobe: true },
      };
  }
}

function vehicle(practice: string): PostKind {
  if (practice === 'uk-1965') {
    const of = (id: string) => sizeOf('signal-old', id);
    const sizes = { up: of('green-centre'), lens: of('lens'), pitch: of('pitch'), thick: of('post') };
    return { name: 'signal post', from: 'lens', ...sizes, ...VEHICLE };
  }
  if (practice.startsWith('usa')) {
    const [lens, up] = [sizeOf('signal-usa', 'lens'), sizeOf('signal-usa', 'head-bottom')];
    return { name: 'signal pole', from: 'bottom', up, lens, pitch: memory(0.35), thick: memory(0.114), ...VEHICLE };
  }
  return today();
}

function today(): PostKind {
  const of = (id: string) => sizeOf('signal', id);
  const sizes = { up: of('head-bottom'), lens: of('lens'), pitch: of('pitch'), thick: of('post') };
  return { name: 'signal post', from: 'bottom', ...sizes, ...VEHICLE };
}

/** Where the measures of a kind are from, as one line. */
export function sourcesOf({ up, lens, pitch, apart, thick }: PostKind): string {
  const facts: [string, Fact<number> | null][] = [
    ['height', up],
    ['lens', lens],
    ['pitch', pitch],
    ['width of the pair', apart],
    ['thickness', thick],
  ];
  const sources = new Map<string, string[]>();
  for (const [name, of] of facts) {
    if (of !== null && of.value > 0) sources.set(of.source, [...(sources.get(of.source) ?? []), name]);
  }
  return [...sources].map(([source, names]) => `${names.join(', ')}: ${source}`).join('; ');
}
