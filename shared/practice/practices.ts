import { GERMANY_TODAY } from './germany.ts';
import type { Practice } from './practice.ts';
import { UK_1965, UK_TODAY } from './uk.ts';
import { USA_TODAY } from './usa.ts';

/** All practices, in the order in which they are offered. */
export const PRACTICES: readonly Practice[] = [UK_TODAY, UK_1965, USA_TODAY, GERMANY_TODAY];

export function findPractice(id: string): Practice | null {
  return PRACTICES.find((practice) => practice.id === id) ?? null;
}
