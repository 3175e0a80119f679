import { chapterOf } from '../help/about.ts';
import { openHelp } from '../help/open.ts';
import { closeSheet } from '../model/surface.ts';
import { command } from './command.ts';

export const help = command({
  id: 'help',
  label: 'Help',
  hint: 'How everything is done, all keys, what to do when something does not work, and what this is not for.',
  shortcut: '?',
  also: ['F1'],
  menu: 'Help',
  words: ['manual', 'keys', 'shortcuts', 'guide', 'instructions', 'cautions', 'how'],
  when: () => true,
  run: (_, surface) => {
    if (surface.sheet.value === 'help') closeSheet(surface);
    else openHelp(surface, surface.sheet.value && chapterOf(surface.sheet.value));
  },
});
