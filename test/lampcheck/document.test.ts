/** The record in the layout, and what of it still counts. */
import { expect, test } from 'vitest';
import { answersNow, countText, recordIn, withRecord } from '../../shared/lampcheck/document.ts';
import { isProven, shortFlash } from '../../shared/lampcheck/lit-time.ts';
import type { CheckRecord } from '../../shared/layout/check-record.ts';
import penmarrow from '../../shared/layout/examples/penmarrow.json?raw';
import { parseLayout } from '../../shared/layout/parse.ts';
import { writeLayout } from '../../shared/layout/write.ts';
import { minute, moved, someLoads } from './layouts.ts';

const RECORD: CheckRecord = {
  board: 'town',
  began: minute(0),
  ended: minute(9),
  lamps: [
    { site: 'site-0', label: 'Head 0', colour: 'red', output: 'D2', result: 'right', at: minute(1) },
    { site: 'site-0', label: 'Head 0', colour: 'amber', output: 'D3', result: 'dark', at: minute(2) },
  ],
};

test('one record for each board, written and read back; the newer answer of each lamp stays', () => {
  const { layout } = parseLayout(penmarrow);
  if (!layout) throw new Error('no layout');
  const once = withRecord(withRecord(layout, RECORD), { ...RECORD, board: 'harbour' });
  const [red] = RECORD.lamps;
  const later = {
    ...RECORD,
    began: minute(20),
    lamps: red ? [{ ...red, result: 'dim' as const, at: minute(21) }] : [],
  };
  const twice = withRecord(once, later);
  expect(twice.checks?.map(({ board }) => board)).toEqual(['harbour', 'town']);
  expect(recordIn(twice, 'town')?.lamps.map(({ result }) => result)).toEqual(['dim', 'dark']);
  expect(parseLayout(writeLayout(twice))).toMatchObject({ layout: twice, findings: [] });
  expect(recordIn(layout, 'town')).toBe(null);
});

test('answers for another output count no more', () => {
  const loads = someLoads(3);
  expect([...answersNow(loads, RECORD).keys()]).toEqual([0, 1]);
  const after = moved(loads, new Map([[loads[0]?.path ?? '', 9]]));
  expect([...answersNow(after, RECORD).keys()]).toEqual([1]);
  expect(after.map((load) => isProven(after, load, RECORD))).toEqual([false, false, false]);
  expect(answersNow(loads, null).size).toBe(0);
});

test('answers are counted in words', () => {
  expect(countText(RECORD.lamps)).toBe('1 right, 1 dark');
  expect(countText([])).toBe('nothing yet');
});

test('a filament gets the time it needs to glow, with the same share of the time', () => {
  const [led, filament] = someLoads(2, ({ lamp, circuit }) =>
    lamp === 1 ? { circuit: { ...circuit, source: 'filament' } } : {},
  );
  const flashes = [led, filament].flatMap((load) => (load ? [shortFlash(load)] : []));
  expect(flashes.map(({ lit }) => lit)).toEqual([150, 400]);
  for (const { lit, dark } of flashes) expect(lit / (lit + dark)).toBeLessThanOrEqual(0.2);
});
