import { describe, expect, test } from 'vitest';
import { stageDiagram } from '../../shared/drawings/stage-diagram.ts';
import { movementsOf } from '../../shared/drawings/stages/moves.ts';
import type { Junction } from '../../shared/layout/sites.ts';
import { junction, penmarrow } from './sites.ts';
import { byClass, byName, type Node, parseXml, written } from './xml.ts';

const site = (id: string): Junction => penmarrow().sites.find((it) => it.id === id) as Junction;
const draw = (of: Junction, options = {}): Node => parseXml(stageDiagram(of, options));

/** `A 270 right`: moves drawn in one stage, those that give way with a question mark. */
function moves(svg: Node, stage: string): string[] {
  const plan = byClass(svg, 'aw-stage').find((it) => it.attributes['data-stage'] === stage) as Node;
  return byClass(plan, 'aw-move').map((move) => {
    const { 'data-phase': phase, 'data-from': from, 'data-way': way } = move.attributes;
    return `${phase} ${from} ${way}${byClass(move, 'aw-gives-way').length > 0 ? '?' : ''}`;
  });
}

const lamps = { red: { bit: 0 }, amber: { bit: 1 }, green: { bit: 2 } };

describe('who moves', () => {
  test('at a crossroads: ahead and both turns, the right turn giving way where they keep left', () => {
    const svg = draw(site('market-cross'));
    expect(moves(svg, '1')).toEqual([
      'A 90 right?',
      'A 90 left',
      'A 90 ahead',
      'A 270 left',
      'A 270 ahead',
      'A 270 right?',
    ]);
    expect(moves(svg, '2').map((it) => it.slice(0, 1))).toEqual(Array(6).fill('B'));
  });

  test('where they keep right the left turn gives way', () => {
    expect(moves(draw(site('market-cross'), { drives: 'right' }), '1').filter((it) => it.endsWith('?'))).toEqual([
      'A 90 left?',
      'A 270 left?',
    ]);
  });

  test('a T-junction has no way ahead from its side road', () => {
    const svg = draw(site('chapel-corner'));
    expect(moves(svg, '2')).toEqual(['B 0 left', 'B 0 right']);
    expect(moves(svg, '1')).toEqual(['A 270 left', 'A 270 ahead', 'A 90 right?', 'A 90 ahead']);
  });

  test('the other side stopped, the right turn no longer gives way', () => {
    const cut = junction({
      phases: ['A', 'B'].map((id) => ({ id, name: id, lamps })),
      heads: [
        { id: 'a', name: 'a', phase: 'A', arm: 90 },
        { id: 'b', name: 'b', phase: 'B', arm: 270 },
        { id: 'c', name: 'c', phase: 'B', arm: 0 },
      ],
      stages: [
        { id: '1', phases: ['A', 'B'], green: 10 },
        { id: '2', phases: ['A'], green: 10 },
      ],
    });
    expect(moves(draw(cut), '1')).toContain('A 90 right?');
    expect(moves(draw(cut), '2')).toEqual(['A 90 right', 'A 90 ahead']);
  });

  test('a filter arrow turns and does not go ahead', () => {
    const filter = junction({
      phases: [
        { id: 'A', name: 'Road', lamps },
        { id: 'F', name: 'Filter', lamps: { green: { bit: 3 } } },
      ],
      heads: [
        { id: 'a', name: 'a', phase: 'A', arm: 90 },
        { id: 'f', name: 'f', phase: 'F', arm: 90 },
        { id: 'b', name: 'b', phase: 'A', arm: 270 },
        { id: 'c', name: 'c', phase: 'A', arm: 180 },
      ],
      stages: [{ id: '1', phases: ['F'], green: 10 }],
    });
    expect(moves(draw(filter), '1')).toEqual(['F 90 left']);
    const north = { id: 'd', name: 'd', phase: 'A', arm: 0 };
    const four = { ...filter, heads: [...(filter.heads ?? []), north] };
    // Of two turns the one to the near side; keeping right, that is the other.
    expect(moves(draw(four), '1')).toEqual(['F 90 left']);
    expect(moves(draw(four, { drives: 'right' }), '1')).toEqual(['F 90 right']);
  });

  test('the plan turns with the site', () => {
    expect(movementsOf(site('chapel-corner'), 0).arms).toEqual([0, 90, 270]);
    expect(movementsOf(site('chapel-corner'), 90).arms).toEqual([0, 90, 180]);
  });

  test('people cross the arms where their heads stand, or all of them', () => {
    const walk = (arms: number[]): Node =>
      draw(
        junction({
          phases: [
            { id: 'A', name: 'Road', lamps },
            { id: 'P', name: 'On foot', kind: 'pedestrian', lamps: { red: { bit: 3 }, green: { bit: 4 } } },
          ],
          heads: [
            { id: 'a', name: 'a', phase: 'A', arm: 90 },
            { id: 'b', name: 'b', phase: 'A', arm: 270 },
            ...arms.map((arm) => ({ id: `p${arm}`, name: 'p', phase: 'P', kind: 'pedestrian' as const, arm })),
          ],
          stages: [
            { id: '1', phases: ['A'], green: 10 },
            { id: '2', phases: ['P'], green: 6 },
          ],
        }),
      );
    const crossings = (svg: Node): unknown[] =>
      byClass(svg, 'aw-crossing').map((it) => [it.attributes['data-arms'], it.attributes['data-green']]);
    expect(crossings(walk([90]))).toEqual([
      ['90', 'no'],
      ['90', 'yes'],
    ]);
    expect(crossings(walk([]))).toEqual([
      ['90 270', 'no'],
      ['90 270', 'yes'],
    ]);
    expect(moves(walk([90]), '2')).toEqual([]);
  });
});

test('stages stand in order with their names, greens and the changes between them', () => {
  const svg = draw(site('market-cross'), { changes: [6000, 5000] });
  const said = byClass(svg, 'aw-stage').map((it) => written(it));
  expect(said).toEqual([
    expect.stringContaining('1 Fore StreetA green 18.0 s'),
    expect.stringContaining('2 Quay HillB green 12.0 s'),
  ]);
  // One arrow to the next stage, one back to the first.
  expect(byClass(svg, 'aw-next')).toHaveLength(2);
  expect(written(svg)).toMatch(/6\.0 s.*5\.0 s/);
  expect(byClass(svg, 'aw-now')).toHaveLength(0);
  expect(byClass(draw(site('market-cross'), { now: 1 }), 'aw-now')).toHaveLength(1);
});

test('phases whose place nobody knows are named all the same', () => {
  const svg = draw(
    junction({ phases: [{ id: 'A', name: 'Somewhere', lamps }], stages: [{ id: '1', phases: ['A'], green: 9 }] }),
  );
  expect(written(svg)).toContain('A Somewhere (not on the plan)');
  expect(byClass(svg, 'aw-next')).toHaveLength(0);
  expect(byName(svg, 'desc')[0]?.text).toBe('Stage 1: A Somewhere green.');
});
