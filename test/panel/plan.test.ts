import { expect, test, vi } from 'vitest';
import { readDocument } from '../../renderer/model/document.ts';
import { armsOf, groundOf } from '../../renderer/plan/ground.ts';
import { roadLabel, siteLabels } from '../../renderer/plan/labels.ts';
import { marksOf } from '../../renderer/plan/marks.ts';
import { Moving } from '../../renderer/plan/moving.ts';
import { roomFor } from '../../renderer/plan/room.ts';
import { boxOf, lampAt, overlap } from '../../renderer/plan/shapes.ts';
import { angleOf, rightOf, towards, turned } from '../../renderer/plan/vectors.ts';
import type { Layout } from '../../shared/layout/schema.ts';
import { writeLayout } from '../../shared/layout/write.ts';
import { openBench, PENMARROW } from './example.ts';
import { oneOfEach } from './one-of-each.ts';

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

/** Plan of one of each kind, with symbols as large as at the layout at 1280 x 720: 14 px, where the plan is 697 px wide. */
function everything() {
  const layout = oneOfEach();
  const open = readDocument({ name: 'each.json', text: writeLayout(layout), version: 1 });
  if (!open.layout) throw new Error(open.findings[0]?.what);
  const ground = groundOf(open.layout);
  const mm = ground.width / 697;
  const { layout: read } = open;
  const r = roomFor((radius) => marksOf(read, ground, open.sites, radius), ground, 14 * mm);
  return { open, ground, mm, r, marks: marksOf(open.layout, ground, open.sites, r) };
}

test('one site of each kind on one board: no two symbols overlap, letters are readable, all stand on the baseboard', () => {
  const { marks, ground, r, mm } = everything();
  const boxes = marks.flatMap((site) => site.heads.map((head) => ({ site: site.id, box: boxOf(head, r) })));
  const clashes = boxes.flatMap((a, at) =>
    boxes.slice(at + 1).flatMap((b) => (overlap(a.box, b.box) > 0 ? [`${a.site} on ${b.site}`] : [])),
  );
  expect(clashes).toEqual([]);
  for (const { box } of boxes) {
    expect([box.left >= 0, box.top >= 0, box.right <= ground.width, box.bottom <= ground.depth]).toEqual([
      true,
      true,
      true,
      true,
    ]);
  }
  // A letter is 1.6 radii high.
  expect((1.6 * r) / mm).toBeGreaterThanOrEqual(14);
});

test('one site of each kind: names cover no lamp and no other name', () => {
  const { marks, ground, open, r, mm } = everything();
  const names = marks.map(({ id }) => open.sites.find((site) => site.id === id)?.names.name ?? '');
  const labels = siteLabels(marks, ground, r, (mark) => ({
    width: (names[marks.indexOf(mark)]?.length ?? 0) * 0.515 * 15 * mm,
    height: 1.25 * 15 * mm,
  }));
  const symbols = marks.flatMap((site) => site.heads.map((head) => boxOf(head, r)));
  const covered = labels.flatMap(({ box }, at) => {
    const others = [...symbols, ...labels.slice(at + 1).map((label) => label.box)];
    return others.some((other) => overlap(box, other) > 0) ? [names[at]] : [];
  });
  expect(covered).toEqual([]);
});

test('a pelican has heads for both directions on the near side, and figures at both kerbs', () => {
  const { marks, open } = everything();
  const pelican = open.layout?.sites.find(({ kind }) => kind === 'pelican');
  const mark = marks.find(({ id }) => id === pelican?.id);
  const { x, y } = mark?.place ?? { x: 0, y: 0 };
  // It stands on Mill Lane, which runs from left to right: up the site is to the right.
  expect(
    mark?.heads.map((head) => [
      Math.sign(Math.round(head.at.x - x)),
      Math.sign(Math.round(head.at.y - y)),
      head.lamps.length,
    ]),
  ).toEqual([
    [1, 1, 3],
    [-1, -1, 3],
    [0, -1, 2],
    [0, 1, 2],
  ]);
  expect([mark?.crossing?.is, mark?.stopLines.length]).toEqual(['studs', 2]);
});

test('a level crossing shows its reds side by side and the amber below them', () => {
  const { marks, open } = everything();
  const site = open.layout?.sites.find(({ kind }) => kind === 'level-crossing');
  const head = marks.find(({ id }) => id === site?.id)?.heads[0];
  if (!head) throw new Error('no head');
  expect(head.lamps.map(({ colour }) => colour)).toEqual(['red', 'red', 'amber']);
  const [left, right, amber] = head.lamps.map((_, at) => lampAt(head, at));
  expect([left?.y === right?.y, (amber?.y ?? 0) > (left?.y ?? 0), (left?.x ?? 0) < 0, amber?.x]).toEqual([
    true,
    true,
    true,
    0,
  ]);
});

test('the three railway signals show as many lamps as they have, from the top as the glossary has them', () => {
  const { marks, open } = everything();
  const lamps = (open.layout?.sites ?? []).flatMap((site) => {
    if (site.kind !== 'colour-light') return [];
    return [marks.find(({ id }) => id === site.id)?.heads[0]?.lamps.map(({ colour }) => colour)];
  });
  expect(lamps).toEqual([
    ['green', 'red'],
    ['green', 'yellow', 'red'],
    ['yellow', 'green', 'yellow', 'red'],
  ]);
});

test('a site is moved by arrow keys in one step of undo, and stays on the baseboard', async () => {
  vi.useFakeTimers();
  const { model } = await openBench();
  const moving = new Moving(model);
  const place = () => model.open.value.layout?.sites[2]?.place;
  for (const key of ['ArrowRight', 'ArrowRight', 'ArrowUp']) expect(moving.key('harbour-crossing', key)).toBe(true);
  expect(moving.now.value).toEqual({ site: 'harbour-crossing', by: { x: 20, y: -10 } });
  expect(moving.key('harbour-crossing', 'a')).toBe(false);
  await vi.advanceTimersByTimeAsync(1_000);
  // A crossing falls back onto the middle of the road that it is over.
  expect([place(), moving.now.value]).toEqual([{ x: 1070, y: 960, turn: 90 }, null]);
  expect(model.log.value.at(-1)?.text).toBe('Moved Harbour Crossing.');
  await model.history.undo();
  expect(place()).toEqual({ x: 1050, y: 960, turn: 90 });
  moving.to('harbour-crossing', { x: 9_000, y: -9_000 });
  await moving.stand();
  expect(place()).toEqual({ x: 1600, y: 0, turn: 90 });
  vi.useRealTimers();
});
