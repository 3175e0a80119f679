import { COMMANDS } from '../../commands/all.ts';
import { type Command, MENUS } from '../../commands/command.ts';
import { type Block, type Chapter, heading, list, words } from '../block.ts';

/** From the commands themselves, so that it is always true. */
export const keys: Chapter = {
  id: 'keys',
  title: 'Keys',
  words: ['keyboard', 'shortcut', 'hotkey'],
  blocks: [
    words('Ctrl is the command key on an Apple keyboard. Single keys act while no text is being typed.'),
    heading('Everywhere'),
    list(
      'Tab and Shift+Tab go from one control to the next, Enter or Space presses it.',
      'On a dial: ↑ and ↓ one step, Page Up and Page Down five, or type a time: 18, 18.5 s, 1:05.',
      'On a site of the plan: the arrow keys move it.',
    ),
    ...[...MENUS, undefined].flatMap(keysOfMenu),
  ],
};

function keysOfMenu(menu: (typeof MENUS)[number] | undefined): Block[] {
  const own = COMMANDS.filter((it) => it.menu === menu && it.shortcut !== null);
  if (own.length === 0) return [];
  return [
    heading(menu ?? 'Sheets and messages'),
    { is: 'terms', rows: own.map((it) => [keysOf(it), `${it.label}. ${it.hint}`]) },
  ];
}

function keysOf({ shortcut, also }: Command): string {
  return [shortcut, ...(also ?? [])].filter((key) => key !== null).join(' or ');
}
