import { expect, test } from 'vitest';
import { commandById } from '../../renderer/commands/all.ts';
import { runningOf } from '../../renderer/model/running.ts';
import type { Surface } from '../../renderer/model/surface.ts';
import { type Bench, openBench } from './example.ts';

const GREEN = { board: 'town', site: 0, dial: 0 };
const surface = {} as Surface;

function now({ model }: Bench, at = 0) {
  const site = model.open.value.sites[at];
  if (!site) throw new Error('no such site');
  return runningOf(site, model.board(site.board), model.wall.value);
}

async function does(bench: Bench, id: string): Promise<void> {
  const command = commandById(id);
  expect(command.when(bench.model)).toBe(true);
  await command.run(bench.model, surface);
  await bench.settle();
}

test('the panel is drawn from one look: town, board, lamps, log', async () => {
  const { model } = await openBench();
  expect(model.open.value.sites.map(({ names }) => names.name)).toEqual([
    'Market Cross',
    'Chapel Corner',
    'Harbour Crossing',
  ]);
  expect(model.boards.value.map(({ id }) => id)).toEqual(['town']);
  expect(model.board('town').runsLayout.value).toBe(true);
  expect(model.log.value.map(({ text }) => text)).toEqual([
    'Started Amberwick.',
    'Sent Penmarrow to the Town board and kept it.',
  ]);
});

test('the running interval counts down in board time and gives way to the next', async () => {
  const bench = await openBench();
  bench.pass(3_000);
  expect(now(bench)).toMatchObject({ is: 'timed', row: 0, label: 'Fore Street green', left: 15_000, elapsed: 3_000 });
  bench.pass(14_990);
  expect(now(bench)).toMatchObject({ row: 0, left: 10 });
  bench.pass(10);
  expect(now(bench)).toMatchObject({ row: 1, label: 'Fore Street amber', left: 3_000 });
});

test('beacons have no seconds left: they show how often they flash', async () => {
  const bench = await openBench();
  expect(now(bench, 2)).toEqual({ is: 'flashing', row: 0, label: 'Beacons flash in turn', perMinute: 40 });
});

test('lamps glow as the board reports them', async () => {
  const bench = await openBench();
  const lamps = [0, 1, 2, 3, 4, 5].map((lamp) => bench.model.board('town').lamp(lamp));
  bench.pass(1_000);
  expect(lamps.map(({ value }) => value)).toEqual(['dark', 'dark', 'lit', 'lit', 'dark', 'dark']);
  bench.pass(18_000);
  expect(lamps.map(({ value }) => value)).toEqual(['dark', 'lit', 'dark', 'lit', 'dark', 'dark']);
});

test('a nudge is one line to the board; running, planned and kept are apart until Keep', async () => {
  const bench = await openBench();
  const { model, host } = bench;
  await model.nudges.nudge(GREEN, 20_000);
  expect(host.calls.at(-1)).toEqual({ name: 'nudge', args: { ...GREEN, ms: 20_000 } });
  const state = () => model.board('town').state.value;
  expect(model.nudges.value(GREEN)).toBe(20_000);
  expect(state().keptDials?.[0]?.[0]).toBe(18_000);
  expect(model.open.value.sites[0]?.binding.dials[0]).toBe(18_000);
  expect(state()).toMatchObject({ running: 'times', unkept: true });
  await does(bench, 'keep');
  expect(state()).toMatchObject({ unkept: false, keeps: 2 });
  expect(state().keptDials?.[0]?.[0]).toBe(20_000);
  expect(model.log.value.at(-1)?.text).toBe('Kept on the town board: the running times.');
});

test('a nudge moves the running deadline, not the cycle', async () => {
  const bench = await openBench();
  bench.pass(10_000);
  await bench.model.nudges.nudge(GREEN, 21_000);
  bench.pass(10);
  expect(now(bench)).toMatchObject({ row: 0, left: 10_990, elapsed: 10_010 });
});

test('quick presses show at once and send only the newest time', async () => {
  const { model, host, settle } = await openBench();
  host.stall = 'nudge';
  for (const ms of [19_000, 20_000, 21_000, 22_000]) void model.nudges.nudge(GREEN, ms);
  await settle();
  expect(model.nudges.value(GREEN)).toBe(22_000);
  host.release();
  await settle();
  expect(host.calls.filter(({ name }) => name === 'nudge').map(({ args }) => (args as { ms: number }).ms)).toEqual([
    19_000, 22_000,
  ]);
  expect(model.nudges.wanted.value.size).toBe(0);
  expect(model.board('town').state.value.runningDials?.[0]?.[0]).toBe(22_000);
});

test('a refused nudge falls back to the running time and says so at the dial', async () => {
  const { model, host } = await openBench();
  host.refuseNext = { name: 'nudge', code: 'outsideLimits', what: 'outside limits' };
  await model.nudges.nudge(GREEN, 400_000);
  expect(model.nudges.value(GREEN)).toBe(18_000);
  expect(model.trouble.value).toMatchObject({ about: { dial: GREEN }, problem: { what: 'outside limits' } });
});

test('undo takes presses in quick succession back together, redo makes them again', async () => {
  const bench = await openBench();
  const { model } = bench;
  for (const ms of [19_000, 20_000, 21_000]) await model.nudges.nudge(GREEN, ms);
  bench.pass(5_000);
  await model.nudges.nudge({ ...GREEN, dial: 1 }, 14_000);
  await does(bench, 'undo');
  expect(model.board('town').state.value.runningDials?.[0]?.slice(0, 2)).toEqual([21_000, 12_000]);
  await does(bench, 'undo');
  expect(model.board('town').state.value.runningDials?.[0]?.slice(0, 2)).toEqual([18_000, 12_000]);
  expect(model.history.canUndo.value).toBe(false);
  await does(bench, 'redo');
  expect(model.board('town').state.value.runningDials?.[0]?.slice(0, 2)).toEqual([21_000, 12_000]);
});

test('Put back runs the kept times, and can itself be undone', async () => {
  const bench = await openBench();
  const { model } = bench;
  await model.nudges.nudge(GREEN, 25_000);
  await does(bench, 'put-back');
  expect(model.board('town').state.value).toMatchObject({ unkept: false, running: 'same' });
  await does(bench, 'undo');
  expect(model.board('town').state.value.runningDials?.[0]?.[0]).toBe(25_000);
});

test('a lost board: nothing is known of it any longer, and what was asked of it is not sent later', async () => {
  const { model, host, settle } = await openBench();
  host.stall = 'nudge';
  void model.nudges.nudge(GREEN, 19_000);
  void model.nudges.nudge(GREEN, 23_000);
  await settle();
  host.boards[0]?.power(false);
  expect(model.board('town').lamp(2).value).toBe('unknown');
  expect(model.board('town').state.value.problem?.what).toBe('The virtual board is switched off.');
  expect(model.nudges.value(GREEN)).toBe(null);
  host.release();
  await settle();
  expect(host.calls.filter(({ name }) => name === 'nudge')).toHaveLength(1);
});

test('power off and on: the board starts with what was kept, not with what was nudged', async () => {
  const bench = await openBench();
  const { model, pass } = bench;
  await model.nudges.nudge(GREEN, 20_000);
  await does(bench, 'keep');
  await model.nudges.nudge(GREEN, 30_000);
  await does(bench, 'power');
  expect(now(bench)).toEqual({ is: 'unknown' });
  await does(bench, 'power');
  expect(model.board('town').state.value.runningDials?.[0]?.[0]).toBe(20_000);
  pass(1_000);
  expect(now(bench)).toMatchObject({ row: 0, left: 19_000 });
});

test('after a gap the whole state comes at once and the figures are right again', async () => {
  const bench = await openBench();
  const { model, host } = bench;
  bench.pass(1_000);
  const end = host.on('row', () => {});
  end();
  // Rows went by unheard; the host asked the board and tells everything.
  host.tell('live', {
    board: 'town',
    ms: 25_000,
    lit: '0015',
    glow: null,
    rows: [
      { row: 4, began: 24_000 },
      { row: 0, began: 0 },
      { row: 0, began: 0 },
    ],
  });
  bench.silence(0);
  expect(now(bench)).toMatchObject({ row: 4, label: 'Quay Hill green', elapsed: 1_000, left: 11_000 });
  expect([0, 1, 2, 3, 4].map((lamp) => model.board('town').lamp(lamp).value)).toEqual([
    'lit',
    'dark',
    'lit',
    'dark',
    'lit',
  ]);
});

test('a held site stands still on the screen while the others go on', async () => {
  const bench = await openBench();
  bench.pass(2_000);
  await does(bench, 'hold');
  bench.pass(4_000);
  expect(now(bench)).toMatchObject({ row: 0, left: 16_000 });
  expect(now(bench, 1)).toMatchObject({ row: 0, left: 19_000 });
  await does(bench, 'hold');
  bench.pass(1_000);
  expect(now(bench)).toMatchObject({ row: 0, left: 15_000 });
});

test('a delayed start counts the delay, too', async () => {
  const layout = JSON.parse((await import('./example.ts')).PENMARROW);
  layout.sites[0].startDelay = 5;
  const bench = await openBench(JSON.stringify(layout));
  bench.pass(1_000);
  expect(now(bench)).toMatchObject({ row: 0, left: 22_000 });
});

test('another layout: numbers mean other things, so nothing is claimed to run, and undo puts the first one back before its times', async () => {
  const bench = await openBench();
  const { model, host } = bench;
  await model.nudges.nudge(GREEN, 20_000);
  const layout = JSON.parse((await import('./example.ts')).PENMARROW);
  layout.name = 'Penmarrow Halt';
  await host.call('openText', { name: 'halt.json', text: JSON.stringify(layout) });
  expect(model.open.value.layout?.name).toBe('Penmarrow Halt');
  expect(model.history.undoWhat.value).toBe('opened halt.json');
  expect(model.board('town').runsLayout.value).toBe(false);
  expect(now(bench)).toEqual({ is: 'unknown' });
  await model.history.undo();
  expect(model.open.value.layout?.name).toBe('Penmarrow');
});

test('the host goes away and another comes: lost, then everything afresh', async () => {
  const bench = await openBench();
  const { model } = bench;
  bench.pass(2_000);
  model.lose({ code: 'hostGone', what: 'Gone.', why: '', next: '' });
  expect(model.board('town').state.value.link).toBe('lost');
  expect(now(bench)).toEqual({ is: 'unknown' });
  await model.attach(bench.host);
  expect(model.trouble.value).toBe(null);
  expect(now(bench)).toMatchObject({ row: 0, left: 16_000 });
  // Heard once, not twice: the old subscriptions ended.
  await model.ask('remark', { text: 'Back again.' });
  expect(model.log.value.filter(({ text }) => text === 'Back again.')).toHaveLength(1);
});
