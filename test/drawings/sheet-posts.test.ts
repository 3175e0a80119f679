/** The posts of a wiring sheet: which there are, how tall, where their lenses are. */
import { expect, test } from 'vitest';
import { sheetBoards } from '../../shared/drawings/sheet/boards.ts';
import { isTooTall } from '../../shared/drawings/sheet/cut-drawing.ts';
import type { SheetBoard } from '../../shared/drawings/sheet/model.ts';
import { wiringSheet } from '../../shared/drawings/sheet/page.ts';
import { postKind } from '../../shared/drawings/sheet/post-kinds.ts';
import { postsOf } from '../../shared/drawings/sheet/posts.ts';
import { compileLayout } from '../../shared/signals/compile.ts';
import { OPTIONS, sheetTown } from './sheet-town.ts';
import { penmarrow } from './sites.ts';
import { parseXml } from './xml.ts';

const town = sheetTown();
const [, quay] = sheetBoards(town.layout, town.boards, {}) as [SheetBoard, SheetBoard];

test('every kind of post has its measures, at the scale of the layout', () => {
  const kinds = ['vehicle', 'pedestrian', 'beacon', 'levelCrossing', 'colourLight', 'streetLamp'] as const;
  for (const practice of ['uk-1965', 'uk-today', 'usa-today']) {
    for (const kind of kinds) {
      const { up, lens, pitch, thick, isGlobe, order, apart } = postKind(kind, practice);
      for (const { value, source } of [up, lens, thick, ...(isGlobe ? [] : [pitch]), ...(apart ? [apart] : [])]) {
        expect([kind, value > 0.05 && value < 7, source.length > 5]).toEqual([kind, true, true]);
      }
      expect(order.length).toBeGreaterThan(0);
    }
  }
});

test('posts: equal ones counted together, lenses at their places', () => {
  const [board] = sheetBoards(penmarrow(), compileLayout(penmarrow()).boards, {}) as [SheetBoard];
  const [signal, beacon] = postsOf(board);
  expect([signal?.count, signal?.places.length, beacon?.count]).toEqual([7, 2, 2]);
  // OO is 4 mm to the foot. Green centre 7 ft, 14 in from lens to lens; common practice, no source for the model.
  expect(signal?.post.lenses.map(({ up }) => Number(up.toFixed(2)))).toEqual([28, 32.67, 37.33]);
  // Globe 2.1 to 3.1 m up (SI 1997/2400 Sch. 1 Pt I 1(1)(d)), 2.6 m at 1:76.2.
  expect(beacon?.post.length).toBeCloseTo(34.12, 2);
  expect(beacon?.post.lenses[0]?.diameter).toBeCloseTo(4.0, 1);
  const half = postsOf({ ...board, layout: { ...board.layout, scale: 'custom', ratio: 152.4 } });
  expect(half[0]?.post.lenses[0]?.up).toBeCloseTo(14, 6);
});

test('what stands beside no signal has no post; what is too tall for the paper is named', () => {
  const [first] = postsOf(quay);
  expect(postsOf(quay).map(({ kind }) => kind.name)).toEqual([
    'signal post',
    'pedestrian signal post',
    'level crossing post',
  ]);
  expect(first && isTooTall(first.post)).toBe(false);
  const giant = { ...town.layout, scale: 'custom' as const, ratio: 8 };
  const text = parseXml(`<div>${wiringSheet(giant, town.boards, { ...OPTIONS, parts: ['cut'] }).body}</div>`).text;
  expect(text).toContain('Too tall to be drawn on this paper: 1');
});
