import { expect, test } from 'vitest';
import { readDocument } from '../../renderer/model/document.ts';
import { armsOf, groundOf } from '../../renderer/plan/ground.ts';
import { roadLabel, siteLabels } from '../../renderer/plan/labels.ts';
import { marksOf } from '../../renderer/plan/marks.ts';
import { boxOf, overlap } from '../../renderer/plan/shapes.ts';
import { angleOf, rightOf, towards, turned } from '../../renderer/plan/vectors.ts';
import type { Layout } from '../../shared/layout/schema.ts';
import { PENMARROW } from './example.ts';

/** Radius of a lamp on the plan, mm, as across the room at 1280 x 720. */
const R = 40;

function plan(change: (layout: { [key: string]: unknown; sites: { [key: string]: unknown }[] }) => void = () => {}) {
  const document = JSON.parse(PENMARROW);
  change(document);
  const open = readDocument({ name: 'test.json', text: JSON.stringify(document), version: 1 });
  if (!open.layout) throw new Error(open.findings[0]?.what);
  const ground = groundOf(open.layout);
  return { layout: open.layout, ground, marks: marksOf(open.layout, ground, open.sites, R), open };
}

// The sum turns -0 into 0.
const round = ({ x, y }: { x: number; y: number }) => ({ x: Math.round(x) + 0, y: Math.round(y) + 0 });

test('angles count clockwise from up, y runs down', () => {
  expect(round(towards(90))).toEqual({ x: 1, y: 0 });
  expect(round(towards(180))).toEqual({ x: 0, y: 1 });
  expect([angleOf({ x: 1, y: 0 }), angleOf({ x: 0, y: 1 }), angleOf({ x: -1, y: 0 })]).toEqual([90, 180, 270]);
  expect(round(rightOf(towards(0)))).toEqual({ x: 1, y: 0 });
  expect(round(turned({ x: 0, y: -10 }, 90))).toEqual({ x: 10, y: 0 });
});

test('where people drive on the left, each head stands on the left of the traffic that it faces', () => {
  const [cross] = plan().marks;
  const at = (name: string) => {
    const head = cross?.heads.find((it) => it.name === name);
    return head && { x: Math.sign(head.at.x - 460), y: Math.sign(head.at.y - 430), turn: Math.round(head.turn) };
  };
  // From the north: going down, left is east. From the east: going left, left is south.
  expect(at('Quay Hill, from the north')).toEqual({ x: 1, y: -1, turn: 0 });
  expect(at('Fore Street, from the east')).toEqual({ x: 1, y: 1, turn: 90 });
  expect(at('Quay Hill, from the south')).toEqual({ x: -1, y: 1, turn: 180 });
  expect(at('Fore Street, from the west')).toEqual({ x: -1, y: -1, turn: 270 });
});

test('where people drive on the right, they stand on the right', () => {
  const { marks } = plan((layout) => {
    layout.practice = 'usa-today';
    layout.sites.splice(1);
  });
  const north = marks[0]?.heads.find(({ name }) => name === 'Quay Hill, from the north');
  expect(north && Math.sign(north.at.x - 460)).toBe(-1);
});

test('opposing heads that share outputs show the same lamps, in the order of the head', () => {
  const [cross] = plan().marks;
  expect(cross?.heads.map(({ lamps }) => lamps.map(({ index }) => index))).toEqual([
    [0, 1, 2],
    [0, 1, 2],
    [3, 4, 5],
    [3, 4, 5],
  ]);
  expect(cross?.heads[0]?.lamps.map(({ colour }) => colour)).toEqual(['red', 'amber', 'green']);
});

test('stop lines run from the middle of the road to the near kerb, clear of the crossing road', () => {
  const [cross] = plan().marks;
  // Fore Street is 104 mm wide, so Quay Hill stops 52 + 14 mm from its middle, from x 460 to its kerb 48 mm on.
  expect(cross?.stopLines[2]?.map(round)).toEqual([
    { x: 460, y: 364 },
    { x: 508, y: 364 },
  ]);
});

test('beacons stand on both sides of the road that the crossing crosses', () => {
  const crossing = plan().marks[2];
  expect(crossing?.crossing).toMatchObject({ across: 96 });
  expect(
    crossing?.heads.map(({ name, at, turn, lamps }) => [name, Math.sign(at.y - 960), turn, lamps[0]?.index]),
  ).toEqual([
    ['Harbour side', 1, 180, 12],
    ['Shop side', -1, 0, 13],
  ]);
});

test('no two symbols of the example overlap, and all stand on the baseboard', () => {
  const { marks, ground } = plan();
  const boxes = marks.flatMap((site) => site.heads.map((head) => boxOf(head, R)));
  const pairs = boxes.flatMap((a, at) => boxes.slice(at + 1).map((b) => overlap(a, b)));
  expect(pairs.filter((area) => area > 0)).toEqual([]);
  for (const { left, top, right, bottom } of boxes) {
    expect([left >= 0, top >= 0, right <= ground.width, bottom <= ground.depth]).toEqual([true, true, true, true]);
  }
});

test('names of sites cover no lamp and no other name', () => {
  const { marks, ground } = plan();
  const labels = siteLabels(marks, ground, R, () => ({ width: 420, height: 80 }));
  const symbols = marks.flatMap((site) => site.heads.map((head) => boxOf(head, R)));
  for (const [at, { box }] of labels.entries()) {
    const others = labels.slice(at + 1).map((label) => label.box);
    expect([...symbols, ...others].map((other) => overlap(box, other)).filter((area) => area > 0)).toEqual([]);
  }
});

test('names of roads stand where no site is, and never upside down', () => {
  const { marks, ground } = plan();
  const label = (id: string, width: number) => {
    const road = ground.roads.find((it) => it.id === id);
    return road ? roadLabel(road, marks, width) : null;
  };
  expect(label('fore-street', 200)).toMatchObject({ turn: 0, at: { y: 430 } });
  expect(label('quay-hill', 200)).toMatchObject({ turn: 90, at: { x: 460 } });
  expect(label('chapel-lane', 900)).toBe(null);
});

test('a layout without any measures still has a plan: rows of sites on short pieces of road', () => {
  const { ground, marks } = plan((layout) => {
    delete layout.baseboard;
    delete layout.roads;
    for (const site of layout.sites) delete site.place;
  });
  expect(ground.places.map(({ x, y }) => [x, y])).toEqual([
    [300, 300],
    [900, 300],
    [1500, 300],
  ]);
  expect([ground.width, ground.depth]).toEqual([1800, 600]);
  expect(marks.map(({ heads }) => heads.length)).toEqual([4, 3, 2]);
  expect(ground.roads.length).toBeGreaterThan(0);
});

test('heads without an arm are spread by phase, the second of a phase facing the first', () => {
  const layout = JSON.parse(PENMARROW) as Layout;
  const site = layout.sites[0];
  if (site?.kind !== 'junction') throw new Error('not the crossroads');
  for (const head of site.heads ?? []) delete (head as { arm?: number }).arm;
  expect(armsOf(site).map(({ angle }) => angle)).toEqual([90, 270, 180, 0]);
});

test('without heads each phase has one', () => {
  const { marks } = plan((layout) => {
    delete layout.sites[0]?.heads;
  });
  expect(marks[0]?.heads.map(({ name, lamps }) => [name, lamps.length])).toEqual([
    ['Fore Street', 3],
    ['Quay Hill', 3],
  ]);
});
