/** From what a person types of the street to the model, and back. */

import type { Layout, Scale } from '../../shared/layout/schema.ts';
import { feetText, metricText, readLength } from '../../shared/scale/lengths.ts';
import { scaleText, toModel, toPrototype } from '../../shared/scale/ratios.ts';
import { milesPerHour, modelSpeed, readSpeed } from '../../shared/scale/speeds.ts';

/** "28 mm", "7.46 mm", "1.2 m": what one measures with a ruler. */
export function modelText(mm: number): string {
  if (mm >= 1000) return `${Number((mm / 1000).toFixed(2))} m`;
  return `${mm >= 100 ? Math.round(mm) : Number(mm.toFixed(mm >= 10 ? 1 : 2))} mm`;
}

/** "2.13 m, 7 ft". */
export function streetText(metres: number): string {
  return `${metricText(metres)}, ${feetText(metres)}`;
}

/** A length of the street on the model; null for what is no length. */
export function onModel(text: string, ratio: number): Converted | null {
  const metres = readLength(text);
  return metres === null ? null : { shown: modelText(toModel(metres, ratio)), more: 'on the layout' };
}

/** A length of the model on the street; a number alone is millimetres. */
export function onStreet(text: string, ratio: number): Converted | null {
  const metres = readLength(/^\s*[\d.]+\s*$/.test(text) ? `${text} mm` : text);
  return metres === null ? null : { shown: streetText(toPrototype(metres * 1000, ratio)), more: 'on the street' };
}

/** What stands large, and what is said after it. */
export interface Converted {
  readonly shown: string;
  readonly more: string;
}

/** How a speed looks on the layout: 30 mph in OO are 176 mm a second. */
export function speedOnModel(text: string, ratio: number): Converted | null {
  const speed = readSpeed(text);
  if (speed === null) return null;
  const mm = modelSpeed(speed, ratio);
  const said = `${Number(milesPerHour(speed).toFixed(1))} mph, ${Number((speed * 3.6).toFixed(1))} km/h`;
  return { shown: `${modelText(mm)} a second`, more: `a metre takes ${Number((1000 / mm).toFixed(1))} s; ${said}` };
}

/** `ratio` counts for `custom` only. */
export function withScale(layout: Layout, scale: Scale, ratio: number): { layout: Layout; said: string } {
  const { ratio: _, ...plain } = layout;
  const next: Layout = scale === 'custom' ? { ...plain, scale, ratio } : { ...plain, scale };
  return { layout: next, said: `Chose the scale ${scaleText(scale === 'custom' ? ratio : scale)}.` };
}
