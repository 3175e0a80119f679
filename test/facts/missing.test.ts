/** What did not exist yet, or does not exist there. */
import { describe, expect, it } from 'vitest';
import { missing, missingFinding, type PracticeKind } from '../../shared/practice/missing.ts';
import type { Practice } from '../../shared/practice/practice.ts';
import { UK_1965, UK_TODAY } from '../../shared/practice/uk.ts';
import { USA_TODAY } from '../../shared/practice/usa.ts';

const KINDS: readonly PracticeKind[] = [
  'zebra',
  'pelican',
  'crossing',
  'levelCrossing',
  'shuttle',
  'railway',
  'pedestrian',
];

const lacking = (practice: Practice): PracticeKind[] => KINDS.filter((kind) => missing(practice, kind) !== null);

describe('what an era lacks', () => {
  it('is nothing in the UK of today', () => {
    expect(lacking(UK_TODAY)).toEqual([]);
  });

  it('is every signal-controlled crossing in 1965: pelican 1969, puffin 1992 (several histories)', () => {
    expect(lacking(UK_1965)).toEqual(['pelican', 'crossing']);
    expect(missing(UK_1965, 'pelican')?.source).toMatch(/pelican 1969.*puffin 1992/);
    expect(missing(UK_1965, 'pelican')?.confidence).toBe('quoted');
  });

  it('is zebra beacons and pelicans in the USA', () => {
    expect(lacking(USA_TODAY)).toEqual(['zebra', 'pelican']);
  });
});

describe('the warning', () => {
  it('says for a pelican in 1965 when it came and what stood there instead', () => {
    expect(missingFinding(UK_1965, 'pelican', 'sites[2]')).toEqual({
      severity: 'warning',
      code: 'not-in-practice',
      path: 'sites[2]',
      what: 'Pelican crossings are not part of the practice "United Kingdom, mid-1960s".',
      why: 'A visitor from there would wonder (several histories of crossings: panda 1962, pelican 1969, puffin 1992; in 1965 there were zebras and a few pandas).',
      cure: 'Leave it if you like it so, make it a zebra crossing, or choose another practice.',
    });
  });

  it('offers a signal-controlled crossing for a zebra in the USA', () => {
    expect(missingFinding(USA_TODAY, 'zebra', 'sites[0]')?.cure).toBe(
      'Leave it if you like it so, make it a signal-controlled crossing, or choose another practice.',
    );
  });

  it('does not come where the thing exists', () => {
    expect(missingFinding(UK_TODAY, 'pelican', 'sites[0]')).toBeNull();
  });
});
