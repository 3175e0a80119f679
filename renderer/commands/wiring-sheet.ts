import { toggle } from '../model/surface.ts';
import { command } from './command.ts';
import { noLayout } from './why.ts';

export const wiringSheet = command({
  id: 'wiring-sheet',
  label: 'Wiring sheet',
  hint: 'What goes under the baseboard: every wire with its resistor and check, posts to cut, parts, labels; to print or save.',
  shortcut: 'Shift+U',
  menu: 'Lamps',
  words: ['print', 'PDF', 'parts', 'shopping list', 'labels', 'cable', 'table'],
  when: ({ open }) => open.value.layout !== null,
  why: noLayout,
  run: (_, surface) => toggle(surface, 'wiring-sheet'),
});
