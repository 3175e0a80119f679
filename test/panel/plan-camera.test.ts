import { expect, test } from 'vitest';
import { createModel } from '../../renderer/model/model.ts';
import { createPreferences } from '../../renderer/model/preferences.ts';
import { readNumber } from '../../renderer/plan/arrange/number-field.tsx';
import { Camera, detailOf } from '../../renderer/plan/camera.ts';
import { draw, nearEnough } from '../../renderer/plan/drawing.ts';
import { groundOf } from '../../renderer/plan/ground.ts';
import { dialOfHead } from '../../renderer/plan/head-dial.ts';
import { marksOf } from '../../renderer/plan/marks.ts';
import { rove } from '../../renderer/plan/rove.ts';
import { writeLayout } from '../../shared/layout/write.ts';
import { memoryStore, openBench } from './example.ts';
import { FakeWorkbench } from './fake-workbench.ts';
import { oneOfEach } from './one-of-each.ts';

function camera(): Camera {
  const it = new Camera();
  it.frame.value = { width: 800, height: 600 };
  it.board.value = { width: 1600, height: 1200 };
  return it;
}

test('the whole baseboard fits at first; what is under the pointer stays there when one comes closer', () => {
  const it = camera();
  expect([it.scale.value, it.box.value]).toEqual([2, { left: 0, top: 0, right: 1600, bottom: 1200 }]);
  const pointer = { x: 500, y: 200 };
  const under = it.onBoard(pointer);
  for (const factor of [1.3, 2, 0.8, 1.7]) {
    it.zoomBy(factor, it.onBoard(pointer));
    expect(it.onBoard(pointer).x).toBeCloseTo(under.x, 6);
    expect(it.onBoard(pointer).y).toBeCloseTo(under.y, 6);
  }
});

test('the ground moves with the pointer as far as the edges, and all of it is never smaller than the frame', () => {
  const it = camera();
  it.panBy({ x: 50, y: 50 });
  expect(it.view.value).toBe(null);
  it.zoomBy(4);
  const before = it.onBoard({ x: 400, y: 300 });
  it.panBy({ x: -40, y: 20 });
  expect(it.onBoard({ x: 360, y: 320 })).toEqual(before);
  it.panBy({ x: 9e9, y: 9e9 });
  expect([it.box.value.left, it.box.value.top]).toEqual([0, 0]);
  it.zoomBy(1e9);
  expect(it.zoom).toBe(8);
  it.zoomBy(1e-9);
  expect([it.view.value, it.isWhole.value]).toEqual([null, true]);
});

test('a baseboard much wider than the frame stays in the middle until it fills it', () => {
  const it = new Camera();
  it.frame.value = { width: 800, height: 600 };
  it.board.value = { width: 4000, height: 400 };
  it.zoomBy(2, { x: 0, y: 0 });
  expect([it.box.value.left, it.view.value?.y]).toEqual([0, 200]);
});

test('a site out of sight comes into the middle, one in sight stays where it is', () => {
  const it = camera();
  it.look({ zoom: 4, x: 400, y: 300 });
  it.show({ x: 420, y: 320 });
  expect(it.view.value).toEqual({ zoom: 4, x: 400, y: 300 });
  it.show({ x: 1200, y: 900 });
  expect(it.view.value).toEqual({ zoom: 4, x: 1200, y: 900 });
});

test('symbols are laid out anew at each doubling', () => {
  expect([1, 1.9, 2, 3.99, 4, 9].map(detailOf)).toEqual([1, 1, 2, 2, 4, 8]);
});

test('views are remembered by layout, near and far apart; a store that was spoilt does no harm', async () => {
  const store = memoryStore();
  store.setItem('amberwick plan-views', '{"near Penmarrow":[2,500,400],"room Penmarrow":["x"]}');
  const host = new FakeWorkbench(writeLayout(oneOfEach()));
  const model = createModel(host, { now: () => 0, preferences: createPreferences(store) });
  await model.refresh();
  expect(model.plan.camera.view.value).toBe(null);
  const { model: penmarrow } = await openBench();
  expect(penmarrow.plan.camera.view.value).toBe(null);
  const other = createModel(new FakeWorkbench((await openBench()).model.text.value ?? ''), {
    now: () => 0,
    preferences: createPreferences(store),
  });
  await other.refresh();
  expect(other.plan.camera.view.value).toEqual({ zoom: 2, x: 500, y: 400 });
  other.preferences.distance.value = 'room';
  expect(other.plan.camera.view.value).toBe(null);
  store.setItem('amberwick plan-views', '][');
  const spoilt = createModel(new FakeWorkbench(other.text.value ?? ''), {
    now: () => 0,
    preferences: createPreferences(store),
  });
  await spoilt.refresh();
  expect(spoilt.plan.camera.view.value).toBe(null);
});

test('what is arranged is put down when one goes away from the layout', async () => {
  const { model } = await openBench();
  model.plan.arrange(true);
  model.plan.take('road');
  model.preferences.distance.value = 'room';
  expect([model.plan.arranging.value, model.plan.tool.value]).toEqual([false, 'move']);
});

test('an edit that cannot be made is told where it was tried, and changes nothing', async () => {
  const { model } = await openBench();
  const before = model.text.value;
  const finding = { severity: 'error', code: 'x', path: '', what: 'What.', why: 'Why.', cure: 'Cure.' } as const;
  expect(await model.plan.make({ findings: [finding] })).toBe(false);
  expect([model.plan.refusal.value, model.text.value]).toEqual([finding, before]);
});

test('across the room: chosen dials, else the ones turned last, else the first greens', async () => {
  const { model, settle } = await openBench();
  const site = model.open.value.sites[0];
  if (!site) throw new Error('no site');
  const names = (): (string | undefined)[] => model.roomDials.of(site).map((dial) => site.names.dials[dial]?.id);
  expect(names()).toEqual(['green-1', 'green-2']);
  const dial = (id: string): number => site.names.dials.findIndex((it) => it.id === id);
  await model.nudges.nudge({ board: 'town', site: 0, dial: dial('amber') }, 3_500);
  await settle();
  expect(names()).toEqual(['green-1', 'amber']);
  // The key under the thumb stays where it is.
  await model.nudges.nudge({ board: 'town', site: 0, dial: dial('green-1') }, 20_000);
  await settle();
  expect(names()).toEqual(['green-1', 'amber']);
  model.roomDials.choose(site, 0, dial('green-2'));
  expect(names()).toEqual(['green-2', 'amber']);
  // The other one of the two: they change places.
  model.roomDials.choose(site, 0, dial('amber'));
  expect(names()).toEqual(['amber', 'green-2']);
  model.roomDials.show(site, dial('green-1'));
  expect(names()).toEqual(['amber', 'green-1']);
});

test('a head stands for a dial: the green of its stream, else the first time that can be turned', () => {
  const host = new FakeWorkbench(writeLayout(oneOfEach()));
  const model = createModel(host, { now: () => 0, preferences: createPreferences(memoryStore()) });
  return model.refresh().then(() => {
    const { layout, sites } = model.open.value;
    if (!layout) throw new Error('no layout');
    const marks = marksOf(layout, groundOf(layout), sites, 20);
    const dials = (kind: string): (string | null | undefined)[] => {
      const site = sites.find(({ index }) => layout.sites[index]?.kind === kind);
      const heads = marks.find(({ id }) => id === site?.id)?.heads ?? [];
      return heads.map((head) => {
        const dial = site ? dialOfHead(layout, site, head) : null;
        return dial === null ? null : site?.names.dials[dial]?.id;
      });
    };
    expect(dials('junction')).toEqual(['green-1', 'green-2', 'green-1', 'green-2']);
    expect(dials('pelican')).toEqual(['vehicle-green', 'vehicle-green', 'steady-green', 'steady-green']);
    expect(dials('crossing')).toEqual(['vehicle-green', 'vehicle-green', 'walk', 'walk']);
    expect(dials('shuttle')).toEqual(['green-up', 'green-down']);
    expect(dials('level-crossing')).toEqual(['least-red', 'least-red']);
    expect(dials('colour-light')).toEqual(['section']);
    expect(dials('zebra')).toEqual(['flash-on', 'flash-on']);
  });
});

test('arrow keys go round the heads of a site, Escape back to it', () => {
  expect(['ArrowRight', 'ArrowDown', 'ArrowLeft', 'Home', 'End', 'Escape', 'x'].map((key) => rove(key, 2, 3))).toEqual([
    0,
    0,
    1,
    0,
    2,
    -1,
    null,
  ]);
});

test('the town with one of each is too small across the room, and large enough one or two doublings closer', async () => {
  const host = new FakeWorkbench(writeLayout(oneOfEach()));
  const model = createModel(host, { now: () => 0, preferences: createPreferences(memoryStore()) });
  await model.refresh();
  const { layout, sites } = model.open.value;
  if (!layout) throw new Error('no layout');
  // 2,700 mm on 792 px, as at 1280 x 720.
  const whole = 2700 / 792;
  const near = nearEnough(layout, sites, 'room', whole);
  expect([near > 1, near < 4]).toEqual([true, true]);
  const drawing = draw(layout, sites, 'room', whole, detailOf(near));
  // A letter is 1.6 radii high: 32 px.
  expect((drawing.r * 1.6 * near) / whole).toBeGreaterThanOrEqual(31.99);
  const { model: small } = await openBench();
  const penmarrow = small.open.value;
  if (!penmarrow.layout) throw new Error('no layout');
  expect(nearEnough(penmarrow.layout, penmarrow.sites, 'room', 1600 / 796)).toBeCloseTo(1, 1);
});

test('figures are read as people write them, and what is none is not guessed at', () => {
  expect(['96', '96 mm', '1,6 m', '12.5cm', '-5'].map((text) => readNumber(text, 'mm'))).toEqual([
    96, 96, 1600, 125, -5,
  ]);
  expect(['wide', '', '1e3', '5 ft', '90°', '1 2'].map((text) => readNumber(text, 'mm'))).toEqual(Array(6).fill(null));
  expect(['90', '90°', '90 mm', '60 %'].map((text) => readNumber(text, '°'))).toEqual([90, 90, null, null]);
});
