import { describe, expect, test } from 'vitest';
import { parseLayout, readLayout } from '../../shared/layout/parse.ts';
import { resizeBaseboard } from '../../shared/layout/plan-edit/baseboard.ts';
import { settled } from '../../shared/layout/plan-edit/loose.ts';
import {
  addPoint,
  addRoad,
  joinSites,
  movePoint,
  nameRoad,
  takePoint,
  takeRoadAway,
  widenRoad,
} from '../../shared/layout/plan-edit/roads.ts';
import { snapPoint, snapSite, snapTurn } from '../../shared/layout/plan-edit/snap.ts';
import { standSite } from '../../shared/layout/plan-edit/stand.ts';
import {
  fadePicture,
  layPicture,
  movePicture,
  scalePicture,
  takePicture,
  turnPicture,
} from '../../shared/layout/plan-edit/underlay.ts';
import type { Layout } from '../../shared/layout/schema.ts';
import type { Edited } from '../../shared/layout/wiring/edit.ts';
import { writeLayout } from '../../shared/layout/write.ts';
import { moveSite } from '../fixtures/move-site.ts';
import { PENMARROW } from '../panel/example.ts';

function penmarrow(change: (document: Layout) => void = () => {}): Layout {
  const document = JSON.parse(PENMARROW);
  change(document);
  const { layout, findings } = readLayout(document);
  if (!layout) throw new Error(findings[0]?.what);
  return layout;
}

/** The edit was done, and gives a layout that its file can hold. */
function done(edited: Edited): { readonly layout: Layout; readonly said: string } {
  if (!('layout' in edited)) throw new Error(edited.findings[0]?.what);
  const again = parseLayout(writeLayout(edited.layout));
  expect(again.findings).toEqual([]);
  expect(again.layout).toMatchObject(edited.layout);
  return edited;
}

const refusal = (edited: Edited): string => ('findings' in edited ? (edited.findings[0]?.code ?? '') : 'done');
const place = (layout: Layout, id: string) => layout.sites.find((site) => site.id === id)?.place;
const points = (layout: Layout, id: string) => layout.roads?.find((road) => road.id === id)?.points;

describe('sites', () => {
  test('are moved and turned in whole mm and degrees, and stay on the baseboard', () => {
    const layout = penmarrow();
    expect(place(moveSite(layout, 'market-cross', { x: 10.4, y: -20.6 }), 'market-cross')).toEqual({ x: 470, y: 409 });
    expect(place(standSite(layout, 'market-cross', { turn: -14.7 }), 'market-cross')).toEqual({
      x: 460,
      y: 430,
      turn: 345,
    });
    expect(place(moveSite(layout, 'market-cross', { x: 9e9, y: -9e9 }), 'market-cross')).toEqual({ x: 1600, y: 0 });
    expect(standSite(layout, 'market-cross', { x: 460.2 })).toBe(layout);
    expect(standSite(layout, 'nowhere', { x: 1 })).toBe(layout);
  });

  test('take the ends of their roads along; a junction every point, a crossing no bend', () => {
    const layout = penmarrow((it) => {
      it.roads?.push(
        {
          id: 'new',
          name: 'New',
          width: 90,
          points: [
            [460, 430],
            [700, 700],
            [1180, 430],
          ],
        },
        {
          id: 'over',
          name: 'Over',
          width: 90,
          points: [
            [1050, 700],
            [1050, 960],
            [1050, 1100],
          ],
        },
      );
    });
    const moved = moveSite(layout, 'market-cross', { x: 100, y: 0 });
    expect(points(moved, 'new')?.[0]).toEqual([560, 430]);
    expect(points(moved, 'fore-street')).toBe(layout.roads?.[0]?.points);
    expect(points(moveSite(layout, 'harbour-crossing', { x: 5, y: 5 }), 'over')?.[1]).toEqual([1050, 960]);
  });

  test('without places get the ones at which the plan shows them, and a baseboard', () => {
    const bare = penmarrow((it) => {
      delete it.baseboard;
      delete it.roads;
      for (const site of it.sites) delete site.place;
    });
    const layout = settled(bare);
    expect(layout.sites.map((site) => site.place)).toEqual([
      { x: 300, y: 300 },
      { x: 900, y: 300 },
      { x: 1500, y: 300 },
    ]);
    expect(layout.baseboard).toEqual({ width: 1800, depth: 600 });
    expect(settled(layout)).toBe(layout);
    expect(place(moveSite(bare, 'chapel-corner', { x: 0, y: 50 }), 'chapel-corner')).toEqual({ x: 900, y: 350 });
  });
});

describe('roads', () => {
  test('are drawn as wide as the last one, and without a point twice', () => {
    const drawn = done(
      addRoad(penmarrow(), [
        { x: 10, y: 10 },
        { x: 11, y: 11 },
        { x: 300.4, y: 10 },
      ]),
    );
    expect(drawn.layout.roads?.at(-1)).toEqual({
      id: 'road-5',
      name: 'Road 5',
      width: 90,
      points: [
        [10, 10],
        [300, 10],
      ],
    });
    expect(drawn.said).toBe('Drew Road 5.');
    expect(
      refusal(
        addRoad(penmarrow(), [
          { x: 10, y: 10 },
          { x: 12, y: 12 },
        ]),
      ),
    ).toBe('short-road');
  });

  test('join two sites, also where nothing has a place yet', () => {
    const joined = done(joinSites(penmarrow(), 'market-cross', 'harbour-crossing'));
    expect(joined.layout.roads?.at(-1)?.points).toEqual([
      [460, 430],
      [1050, 960],
    ]);
    expect(joined.said).toBe('Joined Market Cross and Harbour Crossing with a road.');
    expect(refusal(joinSites(penmarrow(), 'market-cross', 'market-cross'))).toBe('no-two-sites');
    const bare = penmarrow((it) => {
      delete it.roads;
      for (const site of it.sites) delete site.place;
    });
    expect(done(joinSites(bare, 'market-cross', 'chapel-corner')).layout.roads).toHaveLength(1);
  });

  test('get a name, a width, more points and fewer; the two ends stay', () => {
    const named = done(nameRoad(penmarrow(), 'quay-hill', ' Steep Hill '));
    expect([named.said, named.layout.roads?.[1]?.name]).toEqual(['Named Quay Hill Steep Hill.', 'Steep Hill']);
    expect(refusal(nameRoad(penmarrow(), 'quay-hill', '  '))).toBe('bad-name');
    expect(done(widenRoad(penmarrow(), 'quay-hill', 120)).layout.roads?.[1]?.width).toBe(120);
    expect(refusal(widenRoad(penmarrow(), 'quay-hill', 0))).toBe('bad-width');
    const more = done(addPoint(penmarrow(), 'quay-hill', 1)).layout;
    expect(points(more, 'quay-hill')).toEqual([
      [430, 0],
      [460, 120],
      [460, 540],
      [460, 960],
    ]);
    const fewer = done(takePoint(done(takePoint(more, 'quay-hill', 2)).layout, 'quay-hill', 1)).layout;
    expect(points(fewer, 'quay-hill')).toHaveLength(2);
    expect(refusal(takePoint(fewer, 'quay-hill', 0))).toBe('short-road');
    expect(refusal(movePoint(fewer, 'gone', 0, { x: 1, y: 1 }))).toBe('no-such-road');
  });

  test('are taken away; the last one leaves no empty list', () => {
    const one = penmarrow((it) => it.roads?.splice(1));
    expect(done(takeRoadAway(one, 'fore-street')).layout).not.toHaveProperty('roads');
    expect(done(takeRoadAway(penmarrow(), 'fore-street')).layout.roads).toHaveLength(3);
  });

  test('carry their crossings: the zebra goes along and turns as its road turns, others stay', () => {
    // Harbour Road runs from (460, 960) to (1440, 960); its far point goes down until the road falls at 45 degrees.
    const moved = done(movePoint(penmarrow(), 'harbour-road', 1, { x: 1440, y: 1940 })).layout;
    const share = (1050 - 460) / 980;
    expect(place(moved, 'harbour-crossing')).toEqual({ x: 1050, y: Math.round(960 + share * 980), turn: 135 });
    expect(place(moved, 'market-cross')).toEqual({ x: 460, y: 430 });
    const other = done(movePoint(penmarrow(), 'chapel-lane', 1, { x: 1100, y: 100 })).layout;
    expect(place(other, 'harbour-crossing')).toEqual({ x: 1050, y: 960, turn: 90 });
    const bent = done(addPoint(penmarrow(), 'harbour-road', 0, { x: 1050, y: 900 })).layout;
    expect(place(bent, 'harbour-crossing')?.y).toBeLessThan(930);
  });
});

describe('what is dragged', () => {
  const rules = { reach: 20, grid: 50 };

  test('a crossing falls onto the middle of the road that it is over, and turns with it the shorter way', () => {
    const layout = penmarrow();
    const onto = (x: number, y: number, turn: number) => snapSite(layout, 'harbour-crossing', { x, y, turn }, rules);
    expect(onto(455, 700, 100)).toEqual({ x: 460, y: 700, turn: 180, to: 'middle of Quay Hill' });
    expect(onto(455, 700, 10)).toEqual({ x: 460, y: 700, turn: 0, to: 'middle of Quay Hill' });
    expect(onto(455, 700, 200)).toEqual({ x: 460, y: 700, turn: 180, to: 'middle of Quay Hill' });
    expect(onto(700, 470, 350)).toMatchObject({ y: 430, turn: 270, to: 'middle of Fore Street' });
    expect(onto(800, 722, 90)).toEqual({ x: 800, y: 700, to: 'grid of 50 mm' });
  });

  test('a junction goes to where roads meet, else to the middle of one, and is not turned', () => {
    const layout = penmarrow();
    const onto = (x: number, y: number) => snapSite(layout, 'chapel-corner', { x, y, turn: 0 }, rules);
    expect(onto(480, 445)).toEqual({ x: 460, y: 430, to: 'where roads meet' });
    expect(onto(800, 445)).toEqual({ x: 800, y: 430, to: 'middle of Fore Street' });
    expect(onto(812, 718)).toEqual({ x: 800, y: 700, to: 'grid of 50 mm' });
  });

  test('a point of a road goes to sites, to points, to the middle of roads, square to them, in line, to the grid', () => {
    const layout = penmarrow();
    const onto = (x: number, y: number, beside: { x: number; y: number }[] = []) =>
      snapPoint(layout, { x, y }, { ...rules, beside });
    expect(onto(480, 445)).toEqual({ x: 460, y: 430, to: 'Market Cross' });
    expect(onto(1433, 973)).toEqual({ x: 1440, y: 960, to: 'a point of Harbour Road' });
    expect(onto(800, 440)).toEqual({ x: 800, y: 430, to: 'middle of Fore Street' });
    expect(onto(808, 440, [{ x: 800, y: 700 }])).toEqual({ x: 800, y: 430, to: 'middle of Fore Street' });
    expect(onto(812, 700, [{ x: 800, y: 430 }])).toEqual({ x: 800, y: 700, to: 'right angle' });
    expect(onto(712, 590, [{ x: 600, y: 600 }])).toEqual({ x: 700, y: 600, to: 'right angle' });
    expect(onto(712, 627)).toEqual({ x: 700, y: 650, to: 'grid of 50 mm' });
    const own = snapPoint(layout, { x: 800, y: 440 }, { ...rules, own: 'fore-street' });
    expect(own).toEqual({ x: 800, y: 450, to: 'grid of 50 mm' });
  });

  test('turns go to the road, to right angles, then in steps of 15 degrees', () => {
    const layout = penmarrow((it) => {
      const road = it.roads?.[0];
      if (road)
        road.points = [
          [0, 400],
          [400, 600],
        ];
    });
    expect(snapTurn(layout, { x: 200, y: 500 }, 114)).toEqual({ turn: 117, to: 'along or across Fore Street' });
    expect(snapTurn(layout, { x: 200, y: 500 }, 31)).toEqual({ turn: 27, to: 'along or across Fore Street' });
    expect(snapTurn(layout, { x: 900, y: 700 }, 356)).toEqual({ turn: 0, to: 'right angle' });
    expect(snapTurn(layout, { x: 900, y: 700 }, 50)).toEqual({ turn: 45, to: '15° steps' });
  });
});

test('the baseboard gets another size, but not one beside which a site would stand', () => {
  expect(done(resizeBaseboard(penmarrow(), { width: 2000, depth: 1000.4 })).layout.baseboard).toEqual({
    width: 2000,
    depth: 1000,
  });
  const small = resizeBaseboard(penmarrow(), { width: 1100, depth: 800 });
  expect('findings' in small && small.findings[0]?.what).toBe(
    'Chapel Corner and 1 more would stand beside a baseboard of 1100 by 800 mm.',
  );
  expect(refusal(resizeBaseboard(penmarrow(), { width: Number.NaN, depth: 800 }))).toBe('bad-baseboard');
});

describe('the picture under the plan', () => {
  const picture = { id: 'ab'.repeat(32), name: 'track plan.png', width: 800, height: 400 };
  const laid = (): Layout => done(layPicture(penmarrow(), picture)).layout;

  test('is laid as large as the baseboard allows, moved, turned, faded and taken away', () => {
    expect(laid().underlay).toEqual({ picture: picture.id, name: picture.name, x: 800, y: 600, width: 1600 });
    const high = done(layPicture(penmarrow(), { ...picture, width: 400, height: 800 })).layout;
    expect(high.underlay?.width).toBe(600);
    expect(done(movePicture(laid(), { x: 10.4, y: -5 })).layout.underlay).toMatchObject({ x: 810, y: 595 });
    expect(done(turnPicture(laid(), -1.5)).layout.underlay?.turn).toBe(358.5);
    expect(done(fadePicture(laid(), 130)).layout.underlay?.strength).toBe(100);
    expect(done(takePicture(laid())).layout).toEqual(penmarrow());
    expect(refusal(takePicture(penmarrow()))).toBe('no-underlay');
  });

  test('is scaled by two points: they are then as far apart as was written, and the first stays', () => {
    const [from, to] = [
      { x: 400, y: 300 },
      { x: 1000, y: 1100 },
    ];
    const { underlay } = done(scalePicture(laid(), [from, to], 500)).layout;
    // 1,000 mm are to be 500: everything is half as far from the first point.
    expect(underlay).toMatchObject({ x: 600, y: 450, width: 800 });
    expect(refusal(scalePicture(laid(), [from, from], 500))).toBe('bad-scale');
    expect(refusal(scalePicture(laid(), [from, to], 0))).toBe('bad-scale');
    expect(refusal(scalePicture(laid(), [from, to], Number.POSITIVE_INFINITY))).toBe('bad-scale');
    expect(refusal(scalePicture(penmarrow(), [from, to], 500))).toBe('bad-scale');
  });

  test('that is chosen again takes the place of the one that is missing', () => {
    const moved = done(movePicture(laid(), { x: 10, y: 0 })).layout;
    const { underlay } = done(layPicture(moved, { ...picture, id: 'cd'.repeat(32), name: 'b.png' })).layout;
    expect(underlay).toEqual({ picture: 'cd'.repeat(32), name: 'b.png', x: 810, y: 600, width: 1600 });
  });

  test('is named in the file by the digest of its bytes alone; anything else is explained', () => {
    const document = JSON.parse(writeLayout(laid()));
    document.underlay.picture = '../../secret.png';
    const { layout, findings } = readLayout(document);
    expect([layout, findings[0]?.code, findings[0]?.path]).toEqual([null, 'bad-picture', 'underlay.picture']);
  });
});
