/** What the sheets for traffic and for a street make of what is typed. */
import { expect, test } from 'vitest';
import { readFlow, requestOf, vehiclePhases } from '../../renderer/traffic/request.ts';
import { junctionsInOrder, planWave } from '../../renderer/wave/plan.ts';
import { offerById } from '../../shared/layout/new-site/offers.ts';
import { parseLayout } from '../../shared/layout/parse.ts';
import type { Junction } from '../../shared/layout/sites.ts';
import { compileLayout } from '../../shared/signals/compile.ts';
import { PENMARROW } from './example.ts';
import { openTown } from './one-of-each.ts';

const penmarrow = () => {
  const { layout } = parseLayout(PENMARROW);
  if (!layout) throw new Error('no layout');
  return layout;
};

/** 720 mm at 1:76.2 are 54.9 m, 4.09 s at 30 mph. */
const SPEED = 13.4112;

test('junctions of a street come from left to right', () => {
  expect(junctionsInOrder(penmarrow()).map(({ id }) => id)).toEqual(['market-cross', 'chapel-corner']);
});

test('the wave of Penmarrow: the longer cycle for both, bands both ways, and a layout that compiles', () => {
  const sites = ['market-cross', 'chapel-corner'];
  const { found, findings } = planWave(penmarrow(), { sites, speed: SPEED, legs: null, cycle: null });
  expect(findings.filter(({ severity }) => severity === 'error')).toEqual([]);
  expect(found?.chart).toMatchObject({ name: 'Fore Street', cycle: 44 });
  expect(found?.chart.length).toBeCloseTo(54.864, 3);
  // Greens of 18 and 25 s: no band can be wider than the shorter green.
  expect(Math.max(found?.wave.out.width ?? 0, found?.wave.back.width ?? 0)).toBeLessThanOrEqual(18);
  expect(found && compileLayout(found.layout).findings.filter(({ severity }) => severity === 'error')).toEqual([]);
  expect(found?.layout.groups?.map(({ cycle, board }) => [cycle, board])).toEqual([[44, 'town']]);
});

test('ways that are typed count instead of those on the plan', () => {
  const sites = ['market-cross', 'chapel-corner'];
  const { found } = planWave(penmarrow(), { sites, speed: SPEED, legs: [1440], cycle: 60 });
  expect(found?.chart.length).toBeCloseTo(109.728, 3);
  expect(found?.chart.cycle).toBe(60);
});

test('a cycle that is too short is told, and nothing is planned', () => {
  const sites = ['market-cross', 'chapel-corner'];
  const { found, findings } = planWave(penmarrow(), { sites, speed: SPEED, legs: null, cycle: 30 });
  expect(found).toBe(null);
  expect(findings.map(({ code }) => code)).toContain('cycle-too-short');
});

test('flows: one for each phase of vehicles, counted in the stage in which it runs; people on foot have none', () => {
  const offer = offerById('crossroads-foot');
  const added = offer?.add(openTown(), { name: 'Walkers', board: 'main' });
  if (!added || 'findings' in added) throw new Error('not added');
  const site = added.layout.sites.at(-1) as Junction;
  expect(vehiclePhases(site).map(({ name }) => name)).toEqual(['Ferry Hill', 'Parade']);
  const request = requestOf(
    site,
    new Map([
      ['A', 500],
      ['B', 200],
    ]),
    60,
  );
  expect(request).toEqual({
    stages: [[{ flow: 500, saturation: 1800 }], [], [{ flow: 200, saturation: 1800 }]],
    cycle: 60,
  });
});

test.each([
  ['400', 400],
  [' 25 ', 25],
  ['', null],
  ['many', null],
  ['-3', null],
  ['4.5', null],
])('"%s" as a number of vehicles is %s', (text, flow) => {
  expect(readFlow(text)).toBe(flow);
});
