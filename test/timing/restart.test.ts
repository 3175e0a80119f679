import { expect, test } from 'vitest';
import { penmarrowBoard, withoutSweep } from './example.ts';
import { Rig } from './rig.ts';

const table = withoutSweep(penmarrowBoard().table);

test('what was kept is there after a power cut, what was not kept is gone', () => {
  const rig = new Rig(table);
  rig.board.power(true);
  rig.runMs(500);
  expect(rig.ask('dial', 0, 0, 21_000)).toBe('ok 21000');
  expect(rig.ask('keep')).toBe('ok 2');
  expect(rig.ask('dial', 0, 0, 22_000)).toBe('ok 22000');
  rig.board.power(false);
  expect(rig.lit).toBe('0'.repeat(table.lamps.length));
  rig.runMs(3000);
  rig.board.power(true);
  rig.runMs(500);
  expect(rig.ask('dial', 0, 0)).toBe('ok 21000');
});

test('put back restores the kept times without restarting the cycle', () => {
  const rig = new Rig(table);
  rig.board.power(true);
  rig.runMs(5000);
  const kept = rig.ask('dial', 0, 0);
  rig.ask('dial', 0, 0, 30_000);
  rig.takeEdges();
  const lit = rig.lit.slice(0, 12);
  expect(rig.ask('back')).toBe('ok');
  expect(rig.ask('dial', 0, 0)).toBe(kept);
  expect(rig.lit.slice(0, 12)).toBe(lit);
  expect(rig.edges.filter(({ lamp }) => lamp < 12)).toEqual([]);
});

test('a board with no table is dark and answers', () => {
  const rig = new Rig(table, null);
  rig.board.power(true);
  rig.runMs(2000);
  expect(rig.edges).toEqual([]);
  expect(rig.ask('dial', 0, 0)).toBe('no 5 -');
});
