/** Scales of models and their ratios: how many millimetres of the street are one of the layout. */
import type { Scale } from '../layout/schema.ts';
import { type Fact, fact } from '../practice/practice.ts';

export interface ScaleRule {
  readonly id: Scale;
  readonly name: string;
  /** Prototype to model, such as 76.2 for 1:76.2. */
  readonly ratio: Fact<number>;
}

const LISTS = 'NEM 010 and lists of scales that quote it';
const BRITISH = 'lists of scales: millimetres on the model for a foot of the prototype';

/** Where a scale is named by millimetres to the foot its ratio follows from 1 ft = 304.8 mm. */
function perFoot(id: Scale, name: string, mm: number): ScaleRule {
  return { id, name, ratio: fact(304.8 / mm, 'derived', `${BRITISH}: ${mm} mm`) };
}

function quoted(id: Scale, name: string, ratio: number, source: string = LISTS): ScaleRule {
  return { id, name, ratio: fact(ratio, 'quoted', source) };
}

/** From large to small. */
export const SCALES: readonly ScaleRule[] = [
  quoted('1', 'Gauge 1', 32),
  perFoot('O-UK', 'O, British', 7),
  quoted('O-US', 'O, American', 48, 'lists of scales: a quarter of an inch to the foot'),
  quoted('S', 'S', 64),
  perFoot('OO', 'OO', 4),
  perFoot('HO', 'HO', 3.5),
  perFoot('TT-3', 'TT, British', 3),
  perFoot('TT-120', 'TT, 1:120', 2.54),
  quoted('N-UK', 'N, British', 148, 'lists of scales: 1:148, or 2.0625 mm to the foot rounded'),
  quoted('N', 'N', 160),
  quoted('Z', 'Z', 220),
];

const RATIOS = new Map(SCALES.map((scale) => [scale.id, scale.ratio.value]));

/** Prototype to model. */
export function ratioOf(scale: Scale): number {
  // Every id of the schema is in the list, which a test proves.
  return RATIOS.get(scale) ?? 1;
}

/** Metres of the street for millimetres on the layout. */
export function toPrototype(mm: number, scale: Scale): number {
  return (mm * ratioOf(scale)) / 1000;
}

/** Millimetres on the layout for metres of the street. */
export function toModel(metres: number, scale: Scale): number {
  return (metres * 1000) / ratioOf(scale);
}
