/** Scales of models and their ratios: how many millimetres of the street are one of the layout. */
import type { Layout, Scale } from '../layout/schema.ts';
import { type Fact, fact } from '../practice/practice.ts';

/** A scale by its name, or a ratio of its own. */
export type ScaleOrRatio = Scale | number;

export interface ScaleRule {
  readonly id: Exclude<Scale, 'custom'>;
  readonly name: string;
  /** Prototype to model, such as 76.2 for 1:76.2. */
  readonly ratio: Fact<number>;
}

const NEM = 'NEM 010, edition 2011';
const LISTS = `${NEM}, and lists of scales`;
const BRITISH = 'lists of scales: millimetres on the model for a foot of the prototype';

/** Where a scale is named by millimetres to the foot its ratio follows from 1 ft = 304.8 mm. */
function perFoot(id: ScaleRule['id'], name: string, mm: number): ScaleRule {
  return { id, name, ratio: fact(304.8 / mm, 'derived', `${BRITISH}: ${mm} mm`) };
}

function quoted(id: ScaleRule['id'], name: string, ratio: number, source: string = LISTS): ScaleRule {
  return { id, name, ratio: fact(ratio, 'quoted', source) };
}

/** From large to small. */
export const SCALES: readonly ScaleRule[] = [
  quoted('1', 'Gauge 1', 32),
  perFoot('O-UK', 'O, British', 7),
  quoted('O-NEM', 'O, European', 45, NEM),
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

const RATIOS: ReadonlyMap<string, number> = new Map(SCALES.map((scale) => [scale.id, scale.ratio.value]));

/** Prototype to model. */
export function ratioOf(scale: ScaleOrRatio): number {
  if (typeof scale === 'number') return scale;
  // Every id of the schema is in the list, which a test proves; `custom` has its ratio in the layout.
  return RATIOS.get(scale) ?? 1;
}

/** The ratio of a layout: that of its scale, or its own. */
export function ratioIn(layout: Pick<Layout, 'scale' | 'ratio'>): number {
  return layout.scale === 'custom' ? (layout.ratio ?? 1) : ratioOf(layout.scale);
}

/** "OO, 1:76.2", "1:50". */
export function scaleText(scale: ScaleOrRatio): string {
  const ratio = `1:${Number(ratioOf(scale).toFixed(1))}`;
  const rule = SCALES.find(({ id }) => id === scale);
  return rule === undefined ? ratio : `${rule.name}, ${ratio}`;
}

/** Metres of the street for millimetres on the layout. */
export function toPrototype(mm: number, scale: ScaleOrRatio): number {
  return (mm * ratioOf(scale)) / 1000;
}

/** Millimetres on the layout for metres of the street. */
export function toModel(metres: number, scale: ScaleOrRatio): number {
  return (metres * 1000) / ratioOf(scale);
}
