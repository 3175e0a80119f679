import { toggle } from '../model/surface.ts';
import { command } from './command.ts';

export const earlierKeeps = command({
  id: 'earlier-keeps',
  label: 'Kept before',
  hint: 'Everything that the board kept on other days, with what is another now; any of it can be put back.',
  shortcut: 'Shift+B',
  menu: 'Board',
  words: ['history', 'older', 'backup', 'copies', 'restore', 'versions'],
  when: ({ boards }) => boards.value.length > 0,
  why: () => 'The layout has no board yet.',
  run: (_, surface) => toggle(surface, 'keeps'),
});
