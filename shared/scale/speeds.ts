/**
 * Road-vehicle speeds as people say them, and as they look on the layout. A
 * model keeps the times of the street: what takes 5 s there takes 5 s here.
 */
import { type ScaleOrRatio, toModel } from './ratios.ts';

/** Metres; exact by the international yard and pound agreement of 1959. */
export const FOOT = 0.3048;
export const MILE = 5280 * FOOT;

/** Metres a second of one unit. */
const UNITS: Readonly<Record<string, number>> = {
  mph: MILE / 3600,
  'km/h': 1000 / 3600,
  kmh: 1000 / 3600,
  kph: 1000 / 3600,
  'm/s': 1,
  'ft/s': FOOT,
};

/** Metres a second of `30mph`, `50 km/h`, `13.4 m/s` or `40 ft/s`; null when it is no speed above zero. */
export function readSpeed(text: string): number | null {
  const match = /^\s*(\d{1,4}(?:\.\d{1,3})?)\s*([a-z/]+)\s*$/i.exec(text);
  const unit = UNITS[match?.[2]?.toLowerCase() ?? ''];
  if (match === null || unit === undefined) return null;
  const speed = Number(match[1]) * unit;
  return speed > 0 ? speed : null;
}

export function milesPerHour(metresPerSecond: number): number {
  return (metresPerSecond * 3600) / MILE;
}

/** Millimetres a second on the layout. */
export function modelSpeed(metresPerSecond: number, scale: ScaleOrRatio): number {
  return toModel(metresPerSecond, scale);
}
