import { toggle } from '../model/surface.ts';
import { command } from './command.ts';

export const help = command({
  id: 'help',
  label: 'Help',
  hint: 'Connecting a board, writing its firmware, all keys, and what this is not for.',
  shortcut: '?',
  menu: 'Help',
  words: ['manual', 'keys', 'shortcuts', 'guide', 'instructions', 'cautions', 'how'],
  when: () => true,
  run: (_, surface) => toggle(surface, 'help'),
});
