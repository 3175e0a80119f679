/** Finding a command by what a person types, and moving in menus. */
import { signal } from '@preact/signals';
import { expect, test } from 'vitest';
import { COMMANDS } from '../../renderer/commands/all.ts';
import { MENUS } from '../../renderer/commands/command.ts';
import { entriesOf, find } from '../../renderer/finder/entries.ts';
import { fitOf, isOneSlip } from '../../renderer/finder/match.ts';
import { noteRecent, recentOf } from '../../renderer/finder/recent.ts';
import { moveIn } from '../../renderer/menu/moves.ts';
import { createPreferences } from '../../renderer/model/preferences.ts';
import type { Surface } from '../../renderer/model/surface.ts';
import { memoryStore, openBench } from './example.ts';

const surface = () => {
  const focused: string[] = [];
  const made = {
    sheet: signal(null),
    under: signal(null),
    chapter: signal<string | null>(null),
    finder: signal(true),
    focus: (id: string) => focused.push(id),
  };
  return { focused, ...made, as: made as unknown as Surface };
};

async function finder() {
  const { model } = await openBench();
  const around = surface();
  const entries = entriesOf(model, around.as);
  return { model, around, found: (query: string) => find(query, entries, recentOf(model.preferences.recent)), entries };
}

test('beginnings of words in any order, other words for it, and one slip of the finger', async () => {
  const { found } = await finder();
  const first = (query: string): string | undefined => found(query)[0]?.id;
  expect(first('kee')).toBe('keep');
  expect(first('check lamp')).toBe('lamp-check');
  expect(first('eeprom')).toBe('keep');
  expect(first('lapm check')).toBe('lamp-check');
  // The virtual board has its firmware: the chapter about it can be opened, the command cannot be done.
  for (const query of ['flash', 'firmwre']) {
    expect(
      found(query)
        .slice(0, 2)
        .map(({ id }) => id)
        .sort(),
    ).toEqual(['help firmware', 'write-firmware']);
  }
  expect(first('quay hill')).toBe('dial market-cross green-2');
  expect(first('chapel corner hand')).toBe('site chapel-corner');
  expect(first('soldering')).toBe('help cautions');
  expect(found('qqqqq')).toEqual([]);
});

test('every command is found by its label, by each of its other words and by its whole hint', async () => {
  const { found } = await finder();
  for (const command of COMMANDS.filter(({ id }) => !['find-command', 'put-away'].includes(id))) {
    expect(command.words?.length ?? 0).toBeGreaterThan(0);
    for (const query of [command.label, ...(command.words ?? []), command.hint])
      expect(found(query).map(({ id }) => id)).toContain(command.id);
  }
});

test('a slip is one letter, or two neighbours changed over', () => {
  expect(isOneSlip('wiring', 'wiring')).toBe(true);
  expect(isOneSlip('wirng', 'wiring')).toBe(true);
  expect(isOneSlip('wirring', 'wiring')).toBe(true);
  expect(isOneSlip('wirign', 'wiring')).toBe(true);
  expect(isOneSlip('wwrinh', 'wiring')).toBe(false);
  // Three letters with a slip would be anything.
  expect(fitOf('kep', { label: 'Send', words: [], hint: '' })).toBe(0);
});

test('what cannot be done now says why, and comes after what can', async () => {
  const { found, entries } = await finder();
  expect(entries.find(({ id }) => id === 'keep')?.why).toBe('The board has kept already what it runs.');
  expect(entries.find(({ id }) => id === 'write-firmware')?.why).toBe(
    'A virtual board always has the firmware of this program.',
  );
  const stops = found('stop').map(({ id, why }) => [id, why === null] as const);
  expect(stops.slice(0, 2).map(([, can]) => can)).toEqual([true, true]);
  expect(stops.map(([id]) => id)).toContain('cancel-send');
});

test('every command that cannot be done says why, whatever is missing', async () => {
  const { model, host } = await openBench();
  const silent = (): string[] =>
    COMMANDS.filter((it) => !it.when(model) && !/^[A-Z].+\.$/.test(it.why?.(model) ?? '')).map(({ id }) => id);
  expect(silent()).toEqual([]);
  await model.ask('disconnect', { board: 'town' });
  expect(silent()).toEqual([]);
  expect(COMMANDS.find(({ id }) => id === 'hold')?.why?.(model)).toBe(
    'Town board is not connected. Choose its port in Board and port.',
  );
  host.boards = [];
  await model.ask('openText', { name: 'empty.json', text: '{}' });
  expect(model.open.value.layout).toBe(null);
  expect(silent()).toEqual([]);
});

test('a time that was found is taken in hand at the layout', async () => {
  const { model, around, entries } = await finder();
  model.preferences.distance.value = 'desk';
  await entries.find(({ id }) => id === 'dial chapel-corner green-2')?.run();
  expect(model.siteAtHand.value?.id).toBe('chapel-corner');
  expect(model.preferences.distance.value).toBe('layout');
  expect(around.focused).toEqual(['dial-green-2']);
});

test('what was chosen lately comes first, and is remembered', () => {
  const store = memoryStore();
  const { recent } = createPreferences(store);
  for (const id of ['keep', 'send', 'hold', 'keep']) noteRecent(recent, id);
  expect(recentOf(createPreferences(store).recent)).toEqual(['keep', 'hold', 'send']);
});

test('with nothing typed the last ones come first, then all in the order of the menus', async () => {
  const { model, found } = await finder();
  noteRecent(model.preferences.recent, 'wave-sheet');
  const ids = found('').map(({ id }) => id);
  expect(ids[0]).toBe('wave-sheet');
  expect(ids.indexOf('undo')).toBeLessThan(ids.indexOf('view-room'));
});

test('every command but those about what stands beside them is in a menu', () => {
  expect(COMMANDS.filter(({ menu }) => menu === undefined).map(({ id }) => id)).toEqual(['replace-board', 'put-away']);
  for (const title of MENUS) expect(COMMANDS.some(({ menu }) => menu === title)).toBe(true);
});

test('in a menu arrows go round and round, letters to the next that begins so', () => {
  const labels = ['Send', 'Keep', 'Kept before', 'Pause'];
  expect([moveIn('ArrowDown', 3, labels), moveIn('ArrowUp', 0, labels)]).toEqual([0, 3]);
  expect([moveIn('k', 0, labels), moveIn('k', 1, labels), moveIn('k', 2, labels)]).toEqual([1, 2, 1]);
  expect([moveIn('Home', 2, labels), moveIn('End', 2, labels), moveIn('x', 2, labels)]).toEqual([0, 3, null]);
});
