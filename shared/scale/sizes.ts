/** How large things of the street are, each with its source. All in metres of the street. */
import { type Fact, fact, type Span } from '../practice/fact.ts';
import { INCH } from './lengths.ts';
import { FOOT } from './speeds.ts';

export interface Size {
  readonly id: string;
  /** What people call it. */
  readonly name: string;
  /** Whether a lens or globe that light comes from. */
  readonly isLight: boolean;
  /** What a model is made to. */
  readonly usual: Fact<number>;
  /** Published least and greatest; null where there are none. */
  readonly range: Fact<Span> | null;
}

export interface SizeGroup {
  readonly id: 'signal-old' | 'signal' | 'signal-usa' | 'zebra' | 'level-crossing' | 'street';
  readonly name: string;
  readonly sizes: readonly Size[];
}

const BRITISH_1967 = 'Hong Kong road traffic regulations 1967 reg. 11, taken over for Britain of that time';
const ZEBRA = 'SI 1997/2400 Sch. 1 Pt I';
const MANUAL = 'Traffic Signs Manual ch. 3 (2008) ¶1.21: headroom over a footway';

const MEMORY = 'from memory';

function known(id: string, name: string, range: Span, source: string, isLight = false): Size {
  const middle = fact((range[0] + range[1]) / 2, 'derived' as const, `${source}; the middle of it`);
  const usual = range[0] === range[1] ? fact(range[0], 'seen', source) : middle;
  return { id, name, isLight, usual, range: fact(range, 'seen', source) };
}

function remembered(id: string, name: string, usual: number, isLight = false): Size {
  return { id, name, isLight, usual: fact(usual, 'memory', MEMORY), range: null };
}

function atMost(id: string, name: string, most: number, source: string): Size {
  return { id, name, isLight: false, usual: fact(most, 'seen', source), range: fact([0, most], 'seen', source) };
}

const KERB = remembered('kerb', 'From the kerb to the post', 0.45);

export const SIZES: readonly SizeGroup[] = [
  {
    id: 'signal-old',
    name: 'Signals, 1930s to 1960s',
    sizes: [
      known('green-centre', 'Ground to the middle of the green lens', [7 * FOOT, 7 * FOOT], BRITISH_1967),
      known('lens', 'Lens', [8 * INCH, 8.25 * INCH], BRITISH_1967, true),
      atMost('pitch', 'From one lens to the next', 14 * INCH, BRITISH_1967),
      remembered('post', 'Diameter of the post', 0.114),
      KERB,
    ],
  },
  {
    id: 'signal',
    name: 'Signals, today',
    sizes: [
      {
        ...known('head-bottom', 'Ground to the lowest part of the head', [2.1, 2.3], MANUAL),
        usual: fact(2.3, 'seen', MANUAL),
      },
      remembered('lens', 'Lens', 0.2, true),
      remembered('pitch', 'From one lens to the next', 0.3),
      remembered('head-width', 'Width of a head', 0.3),
      remembered('backing-board', 'Width of a backing board', 0.5),
      remembered('post', 'Diameter of the post', 0.114),
      KERB,
    ],
  },
  {
    id: 'signal-usa',
    name: 'Signals, USA',
    sizes: [
      remembered('lens-small', 'Lens, 8 in', 8 * INCH, true),
      remembered('lens', 'Lens, 12 in', 12 * INCH, true),
      remembered('head-bottom', 'Ground to the lowest part of the head over the road', 15 * FOOT),
    ],
  },
  {
    id: 'zebra',
    name: 'Zebra crossing beacons',
    sizes: [
      known('globe', 'Globe', [0.275, 0.335], `${ZEBRA} 1(1)(b)`, true),
      known('globe-bottom', 'Ground to the lowest part of the globe', [2.1, 3.1], `${ZEBRA} 1(1)(d)`),
      known('band', 'Height of a black or white band', [0.275, 0.335], `${ZEBRA} 2`),
      atMost('lowest-band', 'Height of the lowest, black band', 1, `${ZEBRA} 2`),
    ],
  },
  {
    id: 'level-crossing',
    name: 'Level crossing lights',
    sizes: [
      known('lens', 'Lens', [8 * INCH, 8.25 * INCH], BRITISH_1967, true),
      known('apart', 'From one red to the other', [21 * INCH, 27 * INCH], BRITISH_1967),
    ],
  },
  {
    id: 'street',
    name: 'Street',
    sizes: [
      known('headroom', 'Headroom over a footway', [2.1, 2.3], MANUAL),
      remembered('lamp-post', 'Height of a street lamp', 6),
      remembered('lane', 'Width of a lane', 3.65),
      remembered('footway', 'Width of a footway', 1.8),
    ],
  },
];
