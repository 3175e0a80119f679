/** Where values come from is said, and what is not published is not held against anything. */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { FlashRule, TimeRule } from '../../shared/practice/practice.ts';
import { PRACTICES } from '../../shared/practice/practices.ts';
import { UK_1965, UK_TODAY } from '../../shared/practice/uk.ts';
import { anyValue, factsOf, isFact, isPublished, published } from './published.ts';

const facts = PRACTICES.flatMap((practice) => factsOf(practice).map((it) => it.fact));

/** Numbers of a practice that have no source. */
function bare(value: unknown): unknown[] {
  if (typeof value === 'number') return [value];
  if (typeof value !== 'object' || value === null || isFact(value)) return [];
  return Object.values(value).flatMap(bare);
}

describe('a source', () => {
  it('stands beside every value', () => {
    for (const practice of PRACTICES) expect(bare(practice)).toEqual([]);
    for (const fact of facts) expect(fact.source.length).toBeGreaterThan(5);
  });

  it('says so where a value is from memory, has no source or is taken over', () => {
    for (const { confidence, source } of facts) {
      if (confidence === 'memory') expect(source).toMatch(/from memory/);
      if (confidence === 'common') expect(source).toMatch(/common practice, no source/);
      if (confidence === 'assumed') expect(source).toMatch(/as today/);
      if (confidence === 'seen' || confidence === 'quoted') expect(source).not.toMatch(/from memory|no source/);
    }
  });
});

describe('a value from memory', () => {
  it('is a default and nothing more: no range, no flash rule', () => {
    const rules = (value: unknown): (TimeRule | FlashRule)[] => {
      if (typeof value !== 'object' || value === null) return [];
      if ('dial' in value || 'perMinute' in value) return [value as TimeRule | FlashRule];
      return Object.values(value).flatMap(rules);
    };
    for (const rule of PRACTICES.flatMap(rules)) {
      const limits = 'dial' in rule ? [rule.range] : [rule.perMinute, rule.lit];
      for (const limit of limits) expect(limit === null || isPublished(limit)).toBe(true);
    }
  });

  it('cannot be read by a test that checks values', () => {
    const { minGreen } = UK_TODAY.junction;
    expect(minGreen.confidence).toBe('memory');
    expect(() => published(minGreen)).toThrow('a value cannot be checked that is memory');
    expect(() => published(UK_1965.junction.amber.usual)).toThrow('a value cannot be checked that is assumed');
    expect(() => published(UK_TODAY.junction.green.usual)).toThrow('a value cannot be checked that is common');
    expect(() => published(null)).toThrow('there is no such fact');
  });

  it('is not read past that guard by any test of facts', () => {
    const folder = new URL('.', import.meta.url);
    const files = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((name) => name.endsWith('.ts'));
    const reads = files.filter((name) => {
      const text = readFileSync(new URL(name, folder), 'utf8');
      return /shared\/practice\//.test(text) && /\.value\b|anyValue\([^()]*\)\)\.to/.test(text);
    });
    // The guard itself reads values; this file only speaks of doing so.
    expect(reads).toEqual(['published.ts', 'sources.test.ts'].filter((name) => files.includes(name)));
  });

  it('is marked for each of the values that were not found', () => {
    const remembered = factsOf(UK_TODAY).filter(({ fact }) => fact.confidence === 'memory');
    expect(remembered.map(({ place }) => place)).toEqual([
      'junction.minGreen',
      'pedestrian.walkingSpeed',
      'pelican.vehicleGreen.usual',
      'pelican.allRed.usual',
      'pelican.heldFlashing.usual',
      'pelican.clearance.usual',
    ]);
  });
});

it('the seconds of the 1960s were not found: they are those of today, and nothing is held against them', () => {
  const { amber, redWithAmber, allRed } = UK_1965.junction;
  for (const rule of [amber, redWithAmber, allRed]) {
    expect(rule?.usual.confidence).toBe('assumed');
    expect(rule?.range).toBeNull();
  }
  expect(anyValue(amber.usual) === anyValue(UK_TODAY.junction.amber.usual)).toBe(true);
});
