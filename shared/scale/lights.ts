/** Light sources and fibres that one can buy, by what shows of them, mm. */
import { type Fact, fact } from '../practice/fact.ts';

export interface Light {
  readonly name: string;
  readonly kind: 'round' | 'chip' | 'fibre';
  /** Diameter, or the shorter side of a chip, mm. */
  readonly size: Fact<number>;
}

const ROUND = 'trade sizes of round LEDs; common practice, no source';
const CHIP = 'EIA sizes of chip LEDs, mm: 0402 1.0 × 0.5, 0603 1.6 × 0.8, 0805 2.0 × 1.25, 1206 3.2 × 1.6';
const FIBRE = 'trade sizes of plastic optical fibre; common practice, no source';

const round = (mm: number): Light => ({ name: `${mm} mm LED`, kind: 'round', size: fact(mm, 'common', ROUND) });
const chip = (name: string, mm: number): Light => ({
  name: `${name} chip LED`,
  kind: 'chip',
  size: fact(mm, 'quoted', CHIP),
});
const fibre = (mm: number): Light => ({ name: `${mm} mm fibre`, kind: 'fibre', size: fact(mm, 'common', FIBRE) });

export const LIGHTS: readonly Light[] = [
  chip('0402', 0.5),
  chip('0603', 0.8),
  chip('0805', 1.25),
  chip('1206', 1.6),
  round(1.8),
  round(2),
  round(3),
  round(5),
  fibre(0.25),
  fibre(0.5),
  fibre(0.75),
  fibre(1),
  fibre(1.5),
  fibre(2),
];

export interface Nearest {
  readonly light: Light;
  /** Light less wanted, mm. */
  readonly difference: number;
}

/** The nearest light of some kinds for a lens of so many mm on the model; of two equally near the smaller one. */
export function nearestLight(mm: number, kinds: readonly Light['kind'][]): Nearest | null {
  const found = LIGHTS.filter(({ kind }) => kinds.includes(kind)).sort(
    (a, b) => Math.abs(a.size.value - mm) - Math.abs(b.size.value - mm) || a.size.value - b.size.value,
  );
  const [light] = found;
  return light === undefined ? null : { light, difference: light.size.value - mm };
}

/** What one would put behind a lens of so many mm: an LED by itself, and a fibre with its LED below the baseboard. */
export function lightsFor(mm: number): { led: Nearest | null; fibre: Nearest | null } {
  return { led: nearestLight(mm, ['round', 'chip']), fibre: nearestLight(mm, ['fibre']) };
}
