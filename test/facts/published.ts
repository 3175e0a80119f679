/** How the tests of facts read a practice: only what is published can be held against anything. */
import { expect } from 'vitest';
import type { Fact, Practice } from '../../shared/practice/practice.ts';

const PUBLISHED: readonly Fact<unknown>['confidence'][] = ['seen', 'quoted', 'derived'];

export function isPublished(fact: Fact<unknown>): boolean {
  return PUBLISHED.includes(fact.confidence);
}

/** The value of a published fact; a value from memory, assumed or without a source fails the test that reads it. */
export function published<T>(fact: Fact<T> | undefined | null): T {
  if (fact == null) return expect.fail('there is no such fact');
  if (!isPublished(fact)) return expect.fail(`a value cannot be checked that is ${fact.confidence}: ${fact.source}`);
  return fact.value;
}

/** The value whatever its source: to hold values of a practice against each other, never against a number. */
export function anyValue<T>(fact: Fact<T>): T {
  return fact.value;
}

export function isFact(value: unknown): value is Fact<unknown> {
  return typeof value === 'object' && value !== null && 'confidence' in value && 'source' in value;
}

/** The fact at a place such as `junction.amber.usual`. */
export function factAt(practice: Practice, place: string): Fact<unknown> {
  const found = place.split('.').reduce<unknown>((value, step) => Reflect.get(Object(value), step), practice);
  return isFact(found) ? found : expect.fail(`${practice.id} has no fact at ${place}`);
}

/** Every fact anywhere in a practice, with its place. */
export function factsOf(value: unknown, place = ''): { place: string; fact: Fact<unknown> }[] {
  if (typeof value !== 'object' || value === null) return [];
  if (isFact(value)) return [{ place, fact: value }];
  return Object.entries(value).flatMap(([key, inner]) => factsOf(inner, place === '' ? key : `${place}.${key}`));
}

/** One published value: where it stands in the practice, what the source says, and the source as the code names it. */
export type Row = readonly [place: string, value: unknown, source: string];
