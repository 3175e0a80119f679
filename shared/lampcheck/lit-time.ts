/**
 * How long an output may be lit while one looks. A short exceeds what a pin may ever carry, so an output of which
 * nothing is known yet is lit in short flashes; one that is known not to be shorted stays on.
 */
import type { Load } from '../electrics/model.ts';
import type { CheckRecord } from '../layout/check-record.ts';
import { answerFor } from './record.ts';

/** One flash of an unproven output, ms, and from one to the next: long enough to be seen, the pin off six sevenths of the time. */
export const FLASH_MS = 150;
export const FLASH_EVERY_MS = 1000;

/** A filament glows visibly after about 50 ms and is near its full light after 250 ms (UMTRI-93-37). */
const FILAMENT_FLASH: Flash = { lit: 400, dark: 1600 };
const LED_FLASH: Flash = { lit: FLASH_MS, dark: FLASH_EVERY_MS - FLASH_MS };

/** The flash of a lamp of which nothing is known. */
export function shortFlash({ circuit }: Pick<Load, 'circuit'>): Flash {
  return circuit.source === 'filament' ? FILAMENT_FLASH : LED_FLASH;
}

/** Outputs that a self-check found not to be shorted. */
export type SafeOutputs = ReadonlySet<number>;

/** Whether an output may be lit steadily: the self-check says so, or its lamp was right there before. */
export function isProven(
  loads: readonly Load[],
  load: Load,
  record: CheckRecord | null,
  safe: SafeOutputs = new Set(),
): boolean {
  if (safe.has(load.output)) return true;
  const answer = answerFor(loads, load, record);
  return answer?.result === 'right' && answer.output === load.outputName;
}

/** One part of a pattern: lit for `lit` ms, then dark for `dark` ms. */
export interface Flash {
  readonly lit: number;
  readonly dark: number;
}

/** A number as flashes that one can count from across the room: tens are long, ones are short, zero is one very long. */
export function flashesFor(number: number): Flash[] {
  const whole = Math.max(0, Math.min(99, Math.floor(number)));
  const long = Array.from({ length: Math.floor(whole / 10) }, () => ({ lit: 700, dark: 300 }));
  const short = Array.from({ length: whole % 10 }, () => ({ lit: 200, dark: 250 }));
  const all = whole === 0 ? [{ lit: 1500, dark: 250 }] : [...long, ...short];
  // The pause after the last one says that the number is over.
  return all.map((flash, at) => (at === all.length - 1 ? { ...flash, dark: 1200 } : flash));
}

/** In words, for the screen: "1 long, 2 short". */
export function flashWords(number: number): string {
  const flashes = flashesFor(number);
  const long = flashes.filter(({ lit }) => lit === 700).length;
  const short = flashes.filter(({ lit }) => lit === 200).length;
  return (
    [long > 0 ? `${long} long` : '', short > 0 ? `${short} short` : ''].filter((text) => text !== '').join(', ') ||
    '1 very long'
  );
}

/** How long a step takes at least, so that its number is seen twice, ms. */
export function lengthOf(number: number): number {
  return 2 * flashesFor(number).reduce((sum, { lit, dark }) => sum + lit + dark, 0);
}
