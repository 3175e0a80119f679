import { toggle } from '../model/surface.ts';
import { command } from './command.ts';
import { noLayout } from './why.ts';

export const findWiring = command({
  id: 'find-wiring',
  label: 'Find my wiring',
  hint: 'Lights forgotten outputs one after the other; you point at the lamp, and the plan fills itself.',
  shortcut: 'Shift+I',
  menu: 'Lamps',
  words: ['lost wires', 'forgotten', 'unknown', 'identify', 'which lamp', 'outputs'],
  when: ({ open }) => open.value.boards.length > 0,
  why: (model) => noLayout(model) ?? 'The layout has no board yet.',
  run: (_, surface) => toggle(surface, 'find'),
});
