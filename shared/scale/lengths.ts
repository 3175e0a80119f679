/** Lengths as people write them: metres and feet, on the street and on the model. */
import { FOOT } from './speeds.ts';

/** Metres; exact by the international yard and pound agreement of 1959. */
export const INCH = FOOT / 12;

/** Metres of one unit. */
const UNITS: Readonly<Record<string, number>> = {
  mm: 0.001,
  cm: 0.01,
  m: 1,
  km: 1000,
  ft: FOOT,
  foot: FOOT,
  feet: FOOT,
  "'": FOOT,
  '′': FOOT,
  in: INCH,
  inch: INCH,
  inches: INCH,
  '"': INCH,
  '″': INCH,
  yd: 3 * FOOT,
};

const VULGAR: Readonly<Record<string, string>> = {
  '¼': '1/4',
  '½': '1/2',
  '¾': '3/4',
  '⅛': '1/8',
  '⅜': '3/8',
  '⅝': '5/8',
  '⅞': '7/8',
};

const NUMBER = String.raw`(\d{1,6}(?:\.\d{1,6})?)`;
const FRACTION = String.raw`(?:(\d{1,3})\s*/\s*(\d{1,3}))`;
const ONE = new RegExp(
  String.raw`^(?:${NUMBER}(?:\s+${FRACTION})?|${FRACTION})\s*(mm|cm|km|m|feet|foot|ft|inches|inch|in|yd|['′"″])\.?\s*`,
  'i',
);

/**
 * Metres of `7 ft`, `7'6"`, `8¼ in`, `2.1 m`, `28 mm`, `7 ft 1/2 in`; null for what is no length above zero. A number
 * without a unit is none: nobody could tell which was meant.
 */
export function readLength(text: string): number | null {
  let rest = text
    .trim()
    .replace(/[¼½¾⅛⅜⅝⅞]/g, (sign) => ` ${VULGAR[sign] ?? ''}`)
    .trim();
  let metres = 0;
  for (let parts = 0; rest !== ''; parts += 1) {
    const match = ONE.exec(rest);
    const unit = UNITS[match?.[6]?.toLowerCase() ?? ''];
    if (match === null || unit === undefined || parts === 3) return null;
    const [, whole, over, under, onlyOver, onlyUnder] = match;
    const part = Number(over ?? onlyOver ?? 0) / Number(under ?? onlyUnder ?? 1);
    metres += (Number(whole ?? 0) + part) * unit;
    rest = rest.slice(match[0].length);
  }
  return Number.isFinite(metres) && metres > 0 ? metres : null;
}

/** "2.13 m", "28 mm", "0.85 mm": millimetres below a metre, three figures. */
export function metricText(metres: number): string {
  if (metres >= 0.9995) return `${Number(metres.toPrecision(3))} m`;
  return `${Number((metres * 1000).toPrecision(3))} mm`;
}

/** "7 ft", "7 ft 6 in", "8 ¼ in": to the nearest quarter of an inch, or eighth below an inch. */
export function feetText(metres: number): string {
  const step = metres < INCH ? 8 : 4;
  const steps = Math.round((metres / INCH) * step);
  if (steps === 0) return `${Number((metres / INCH).toPrecision(2))} in`;
  const feet = Math.floor(steps / (12 * step));
  const inches = Math.floor((steps - feet * 12 * step) / step);
  const part = fractionText(steps % step, step);
  const words = [inches > 0 || feet === 0 ? String(inches) : '', part]
    .filter((it) => it !== '' && it !== '0')
    .join(' ');
  return [feet > 0 ? `${feet} ft` : '', words === '' ? '' : `${words} in`].filter((it) => it !== '').join(' ');
}

function fractionText(over: number, under: number): string {
  if (over === 0) return '';
  const signs: Readonly<Record<string, string>> = Object.fromEntries(
    Object.entries(VULGAR).map(([sign, written]) => [written, sign]),
  );
  const [top, bottom] = over % 2 === 0 && under === 8 ? [over / 2, 4] : [over, under];
  const [least, most] = top === 2 && bottom === 4 ? [1, 2] : [top, bottom];
  return signs[`${least}/${most}`] ?? `${least}/${most}`;
}
