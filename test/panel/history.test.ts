/** One history for times on the board and for the layout. */
import { expect, test } from 'vitest';
import { connected } from '../host-service/rig.ts';
import { openBench, PENMARROW } from './example.ts';

const GREEN = { board: 'town', site: 0, dial: 0 };
const renamed = (name: string): string => PENMARROW.replace('"name": "Penmarrow"', `"name": "${name}"`);

test('a change of the layout keeps its file name and is undone and done again with its words in the log', async () => {
  const { model } = await openBench();
  expect(await model.change(renamed('Penmarrow Halt'), 'Renamed the layout.')).toBe(true);
  expect([model.open.value.layout?.name, model.open.value.file]).toEqual(['Penmarrow Halt', 'penmarrow.json']);
  await model.history.undo();
  expect(model.open.value.layout?.name).toBe('Penmarrow');
  await model.history.redo();
  expect(model.open.value.layout?.name).toBe('Penmarrow Halt');
  expect(model.log.value.slice(-3).map(({ kind, text }) => [kind, text])).toEqual([
    ['document', 'Renamed the layout.'],
    ['document', 'Undid: Renamed the layout.'],
    ['document', 'Did again: Renamed the layout.'],
  ]);
});

test('a nudge and a change of the layout are taken back in the order in which they were made', async () => {
  const { model } = await openBench();
  await model.nudges.nudge(GREEN, 20_000);
  await model.change(renamed('Penmarrow Halt'), 'Renamed the layout.');
  await model.change(renamed('Penmarrow Quay'), 'Renamed it again.');
  const names: (string | undefined)[] = [];
  for (let step = 0; step < 2; step++) {
    await model.history.undo();
    names.push(model.open.value.layout?.name);
  }
  expect(names).toEqual(['Penmarrow Halt', 'Penmarrow']);
  expect(model.history.canUndo.value).toBe(true);
  await model.history.undo();
  expect(model.history.canUndo.value).toBe(false);
  expect(model.history.canRedo.value).toBe(true);
});

test('what the host refuses is no step, and a refused undo can be tried again', async () => {
  const { model, host } = await openBench();
  host.refuseNext = { name: 'changeText', code: 'boardBusy', what: 'busy' };
  expect(await model.change(renamed('Penmarrow Halt'), 'Renamed the layout.')).toBe(false);
  expect([model.history.canUndo.value, model.trouble.value?.problem.what]).toEqual([false, 'busy']);
  await model.change(renamed('Penmarrow Halt'), 'Renamed the layout.');
  host.refuseNext = { name: 'changeText', code: 'boardBusy', what: 'busy' };
  await model.history.undo();
  expect([model.open.value.layout?.name, model.history.canUndo.value]).toEqual(['Penmarrow Halt', true]);
  await model.history.undo();
  expect([model.open.value.layout?.name, model.history.canUndo.value]).toEqual(['Penmarrow', false]);
});

test('another layout that is opened is a step: undone, the first is as it was left, with its own steps below', async () => {
  const { model, host } = await openBench();
  await model.change(renamed('Penmarrow Halt'), 'Renamed the layout.');
  await host.call('openText', { name: 'other.json', text: renamed('Elsewhere') });
  expect(model.history.undoWhat.value).toBe('opened other.json');
  await model.change(renamed('Elsewhere Halt'), 'Renamed this one, too.');
  const names: string[] = [];
  const note = () => names.push(`${model.open.value.file} ${model.open.value.layout?.name}`);
  for (let step = 0; step < 3; step++) {
    await model.history.undo();
    note();
  }
  expect(model.history.canUndo.value).toBe(false);
  for (let step = 0; step < 3; step++) {
    await model.history.redo();
    note();
  }
  expect(names).toEqual([
    'other.json Elsewhere',
    'penmarrow.json Penmarrow Halt',
    'penmarrow.json Penmarrow',
    'penmarrow.json Penmarrow Halt',
    'other.json Elsewhere',
    'other.json Elsewhere Halt',
  ]);
});

test('a text that another window puts in begins a new history', async () => {
  const { model, host } = await openBench();
  await model.change(renamed('Penmarrow Halt'), 'Renamed the layout.');
  await host.call('changeText', { text: renamed('Elsewhere'), what: 'Renamed it over there.' });
  expect([model.history.canUndo.value, model.history.canRedo.value]).toEqual([false, false]);
});

test('what the host no longer has cannot be put back: it says so, and nothing older is offered', async () => {
  const { model, host } = await openBench();
  await host.call('openText', { name: 'other.json', text: renamed('Elsewhere') });
  host.refuseNext = { name: 'turnBack', code: 'notOpenBefore', what: 'Gone.' };
  await model.history.undo();
  expect(model.trouble.value?.problem.what).toBe('Gone.');
  expect([model.open.value.layout?.name, model.history.canUndo.value]).toEqual(['Elsewhere', false]);
});

test('the host takes a changed text under the same name, compares the board and logs the words', async () => {
  const { call, board, logged, told } = await connected();
  const text = PENMARROW.replace('"green": 18', '"green": 20');
  expect(await call('changeText', { text, what: 'Set the green of Fore Street to 20 s.' })).toMatchObject({
    ok: true,
    value: { name: 'penmarrow.json', text, version: 2 },
  });
  expect(board()).toMatchObject({ link: 'ready', running: 'times' });
  expect(logged().at(-1)).toBe('Set the green of Fore Street to 20 s.');
  expect(told.filter(({ name }) => name === 'document')).toHaveLength(1);
});

test('the host refuses a changed text that is no layout and keeps the open one', async () => {
  const { call } = await connected();
  const outcome = await call('changeText', { text: '{"format": "amberwick-layout"', what: 'Broke it.' });
  expect(outcome).toMatchObject({ ok: false, problem: { code: 'layoutUnreadable' } });
  expect(await call('look', {})).toMatchObject({ ok: true, value: { document: { version: 1 } } });
});
