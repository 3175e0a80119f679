/** Coloured rings of resistors (IEC 60062). */

export type Band =
  | 'black'
  | 'brown'
  | 'red'
  | 'orange'
  | 'yellow'
  | 'green'
  | 'blue'
  | 'violet'
  | 'grey'
  | 'white'
  | 'gold'
  | 'silver'
  | 'pink';

/** Digit 0 to 9 by place; as a multiplier, so many zeros. */
const DIGITS: readonly Band[] = [
  'black',
  'brown',
  'red',
  'orange',
  'yellow',
  'green',
  'blue',
  'violet',
  'grey',
  'white',
];

/** Multipliers below one. */
const BELOW: readonly (readonly [number, Band])[] = [
  [-1, 'gold'],
  [-2, 'silver'],
  [-3, 'pink'],
];

/** Four rings: two digits, multiplier, 5 %. Five: three digits, multiplier, 1 %. */
export type Rings = 4 | 5;

const TOLERANCE: Readonly<Record<Rings, Band>> = { 4: 'gold', 5: 'brown' };

/** Rings from the end to read from; null for what two or three digits cannot say, or no ring is there for. */
export function bandsOf(ohms: number, rings: Rings): Band[] | null {
  if (!Number.isFinite(ohms) || ohms <= 0) return null;
  const count = rings - 2;
  let zeros = Math.floor(Math.log10(ohms)) - (count - 1);
  let figure = Math.round(scaled(ohms, -zeros));
  if (figure === 10 ** count) {
    figure /= 10;
    zeros += 1;
  }
  if (Math.abs(scaled(figure, zeros) - ohms) > ohms * 1e-6) return null;
  const multiplier = zeros >= 0 ? DIGITS[zeros] : BELOW.find(([power]) => power === zeros)?.[1];
  const digits = [...String(figure)].map((digit) => DIGITS[Number(digit)]);
  if (multiplier === undefined || digits.some((band) => band === undefined)) return null;
  return [...(digits as Band[]), multiplier, TOLERANCE[rings]];
}

/** The value of some rings, ohms; null where they are none. */
export function ohmsOf(bands: readonly Band[]): number | null {
  if (bands.length !== 4 && bands.length !== 5) return null;
  const figures = bands.slice(0, -2).map((band) => DIGITS.indexOf(band));
  const last = bands.at(-2);
  const plain = last === undefined ? -1 : DIGITS.indexOf(last);
  const power = plain >= 0 ? plain : BELOW.find(([, band]) => band === last)?.[0];
  if (figures.some((figure) => figure < 0) || power === undefined) return null;
  return scaled(Number(figures.join('')), power);
}

/** "330 Ω", "4.7 kΩ", "1 MΩ". */
export function ohmsText(ohms: number): string {
  const [unit, factor] = ohms >= 1e6 ? ['MΩ', 1e6] : ohms >= 1000 ? ['kΩ', 1000] : ['Ω', 1];
  return `${Number((ohms / factor).toPrecision(4))} ${unit}`;
}

/** By division below one, so that 47 tenths are 4.7. */
function scaled(value: number, power: number): number {
  return power < 0 ? value / 10 ** -power : value * 10 ** power;
}
