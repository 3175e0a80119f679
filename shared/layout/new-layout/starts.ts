/** What a new layout can begin with. */
import type { Baseboard, Road } from '../places.ts';

/** Things that some countries and eras did not have. */
export type Lackable = 'zebra' | 'pelican' | 'crossing' | 'levelCrossing' | 'pedestrian' | 'railway' | 'shuttle';

export interface FirstSite {
  /** Id of an offer of new-site. */
  readonly offer: string;
  readonly name: string;
}

export interface Start {
  readonly id: string;
  readonly name: string;
  /** One sentence. */
  readonly hint: string;
  readonly baseboard: Baseboard;
  /** Without their widths, which follow from the scale. */
  readonly roads: readonly Omit<Road, 'width'>[];
  /** Its sites where that is; null where the country and era have nothing of the kind. */
  sites(lacks: (kind: Lackable) => boolean): readonly FirstSite[] | null;
}

const ONE: Baseboard = { width: 1200, depth: 800 };
const LONG: Baseboard = { width: 1800, depth: 900 };

const across = (y: number, width: number): Omit<Road, 'width'> => ({
  id: 'main-street',
  name: 'Main Street',
  points: [
    [0, y],
    [width, y],
  ],
});
const down = (id: string, name: string, x: number, from: number, to: number): Omit<Road, 'width'> => ({
  id,
  name,
  points: [
    [x, from],
    [x, to],
  ],
});

/** By a button where people cross: flashing where that is known, else plain. */
function buttonCrossing(lacks: (kind: Lackable) => boolean): FirstSite | null {
  if (!lacks('pelican')) return { offer: 'pelican', name: 'Main Street pelican' };
  return lacks('crossing') ? null : { offer: 'crossing', name: 'Main Street crossing' };
}

export const STARTS: readonly Start[] = [
  {
    id: 'crossroads',
    name: 'A crossroads',
    hint: 'Two roads take turns. Six outputs.',
    baseboard: ONE,
    roads: [across(400, 1200), down('mill-lane', 'Mill Lane', 600, 0, 800)],
    sites: () => [{ offer: 'crossroads', name: 'Mill Lane crossroads' }],
  },
  {
    id: 't-junction',
    name: 'A T-junction',
    hint: 'A side road waits for its turn. Six outputs.',
    baseboard: ONE,
    roads: [across(320, 1200), down('church-lane', 'Church Lane', 600, 320, 800)],
    sites: () => [{ offer: 't-junction', name: 'Church Lane' }],
  },
  {
    id: 'crossing',
    name: 'A crossing with a button',
    hint: 'A button stops the traffic while people cross. Five outputs and a button.',
    baseboard: ONE,
    roads: [across(400, 1200)],
    sites: (lacks) => {
      const site = buttonCrossing(lacks);
      return site && [site];
    },
  },
  {
    id: 'zebra',
    name: 'A zebra crossing',
    hint: 'Two flashing beacons on banded posts. Two outputs.',
    baseboard: ONE,
    roads: [across(400, 1200)],
    sites: (lacks) => (lacks('zebra') ? null : [{ offer: 'zebra', name: 'Main Street zebra' }]),
  },
  {
    id: 'level-crossing',
    name: 'A level crossing',
    hint: 'Red lights in turn for as long as a train is near. Three outputs and a detector.',
    baseboard: ONE,
    roads: [down('station-road', 'Station Road', 600, 0, 800)],
    sites: (lacks) => (lacks('levelCrossing') ? null : [{ offer: 'level-crossing', name: 'Station Road crossing' }]),
  },
  {
    id: 'street',
    name: 'A street',
    hint: 'Two junctions, and a crossing between them. A board full of lamps.',
    baseboard: LONG,
    roads: [
      across(430, 1800),
      down('mill-lane', 'Mill Lane', 460, 0, 900),
      down('church-lane', 'Church Lane', 1340, 430, 900),
    ],
    sites: (lacks) => [
      { offer: 'crossroads', name: 'Mill Lane crossroads' },
      { offer: 't-junction', name: 'Church Lane' },
      ...(lacks('zebra') ? [] : [{ offer: 'zebra', name: 'Main Street zebra' }]),
    ],
  },
  {
    id: 'signal',
    name: 'A railway signal',
    hint: 'Red, yellow and green, step by step behind a train. Three outputs.',
    baseboard: ONE,
    roads: [],
    sites: (lacks) => (lacks('railway') ? null : [{ offer: 'colour-light-3', name: 'Station signal' }]),
  },
  {
    id: 'street-lamps',
    name: 'Street lamps',
    hint: 'They come on one after the other. Four outputs.',
    baseboard: ONE,
    roads: [across(400, 1200)],
    sites: () => [{ offer: 'street-lamps', name: 'Main Street lamps' }],
  },
];
