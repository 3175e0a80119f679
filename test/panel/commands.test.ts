import { expect, test } from 'vitest';
import { COMMANDS, commandById } from '../../renderer/commands/all.ts';
import { commandFor, type KeyPress, shortcutOf } from '../../renderer/commands/keys.ts';
import { openBench } from './example.ts';

const press = (key: string, held: Partial<KeyPress> = {}): KeyPress => ({
  key,
  ctrlKey: false,
  metaKey: false,
  altKey: false,
  shiftKey: false,
  ...held,
});
const id = (key: KeyPress, focus: 'text' | 'dial' | 'free' = 'free', singles = true): string | null =>
  commandFor(key, focus, COMMANDS, singles)?.id ?? null;

test('no two commands share a shortcut, an id or a label', () => {
  for (const part of ['shortcut', 'id', 'label'] as const) {
    const all = COMMANDS.map((it) => it[part]).filter((it) => it !== null);
    expect(all.filter((it, at) => all.indexOf(it) !== at)).toEqual([]);
  }
  const keys = COMMANDS.flatMap(({ shortcut, also }) => [...(shortcut === null ? [] : [shortcut]), ...(also ?? [])]);
  expect(keys.filter((it, at) => keys.indexOf(it) !== at)).toEqual([]);
});

test('every command can be reached by its own shortcut', () => {
  for (const command of COMMANDS) {
    const parts = command.shortcut === null ? [] : command.shortcut.split('+');
    const key = parts.at(-1);
    if (key === undefined) continue;
    const held = { ctrlKey: parts.includes('Ctrl'), shiftKey: parts.includes('Shift') };
    expect(id(press(held.shiftKey ? key : key.toLowerCase().replace('escape', 'Escape'), held))).toBe(command.id);
  }
});

test('every command says in words what it does', () => {
  for (const { hint, label } of COMMANDS) {
    expect(hint).toMatch(/^[A-Z].+\.$/);
    expect(label).toMatch(/^[A-Z]/);
  }
});

test('keys and the Apple command key read alike', () => {
  expect(shortcutOf(press('z', { ctrlKey: true }))).toBe('Ctrl+Z');
  expect(shortcutOf(press('Z', { metaKey: true, shiftKey: true }))).toBe('Ctrl+Shift+Z');
  expect(shortcutOf(press('?', { shiftKey: true }))).toBe('?');
});

test('in a text no single key is a command; in a dial digits are typed and letters act', () => {
  expect(id(press('k'), 'text')).toBe(null);
  expect(id(press('k'), 'dial')).toBe('keep');
  expect(id(press('2'), 'dial')).toBe(null);
  expect(id(press('2'), 'free')).toBe('view-layout');
  expect(id(press('.'), 'dial')).toBe(null);
  expect(id(press('Escape'), 'text')).toBe('put-away');
});

test('in a text Ctrl and the keys above the digits act, but not those of the clipboard and of undo', () => {
  expect(id(press('k', { ctrlKey: true }), 'text')).toBe('find-command');
  expect(id(press('F1'), 'text')).toBe('help');
  expect(id(press('F1'), 'free', false)).toBe('help');
  expect(id(press('z', { ctrlKey: true }), 'text')).toBe(null);
  expect(id(press('/'), 'text')).toBe(null);
  expect(id(press('/'), 'free')).toBe('find-command');
});

test('single keys can be switched off; the others stay', () => {
  expect(id(press('k'), 'free', false)).toBe(null);
  expect(id(press('z', { ctrlKey: true }), 'free', false)).toBe('undo');
});

test('keys with Alt belong to the window', () => {
  expect(id(press('k', { altKey: true }))).toBe(null);
});

test('Keep and Put back can be done only when something differs from what is kept', async () => {
  const { model } = await openBench();
  const can = (): boolean[] => ['keep', 'put-back'].map((it) => commandById(it).when(model));
  expect(can()).toEqual([false, false]);
  await model.nudges.nudge({ board: 'town', site: 0, dial: 0 }, 20_000);
  expect(can()).toEqual([true, true]);
});

test('sites are taken in hand round and round', async () => {
  const { model } = await openBench();
  const names: (string | undefined)[] = [];
  for (let turn = 0; turn < 4; turn++) {
    names.push(model.siteAtHand.value?.id);
    await commandById('next-site').run(model, {} as never);
  }
  expect(names).toEqual(['market-cross', 'chapel-corner', 'harbour-crossing', 'market-cross']);
  await commandById('previous-site').run(model, {} as never);
  expect(model.siteAtHand.value?.id).toBe('market-cross');
});
