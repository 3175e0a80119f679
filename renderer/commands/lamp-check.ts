import { toggle } from '../model/surface.ts';
import { command } from './command.ts';
import { noLayout } from './why.ts';

export const lampCheck = command({
  id: 'lamp-check',
  label: 'Lamp check',
  hint: 'Lights one lamp after the other and asks what you see.',
  shortcut: 'I',
  menu: 'Lamps',
  line: true,
  words: ['test', 'try each lamp', 'wrong wire', 'swap', 'LED'],
  when: ({ open }) => open.value.boards.length > 0,
  why: (model) => noLayout(model) ?? 'The layout has no board yet.',
  run: (_, surface) => toggle(surface, 'check'),
});
