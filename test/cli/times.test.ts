import { expect, test } from 'vitest';
import { readTime } from '../../scripts/cli/times.ts';

test.each([
  ['18', 18_000],
  ['18.5s', 18_500],
  ['18 s', 18_000],
  ['0.75', 750],
  ['1:05', 65_000],
  ['2:00.5', 120_500],
  ['0', 0],
])('%s is %i ms', (text, ms) => {
  expect(readTime(text)).toBe(ms);
});

test.each(['', 's', '-1', '1:5', '1:75', '18m', '1e3', '18,5', '1.2345', '99999999', '0x10'])(
  '%j is no time',
  (text) => {
    expect(readTime(text)).toBeNull();
  },
);
