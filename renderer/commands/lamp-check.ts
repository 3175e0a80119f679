import { toggle } from '../model/surface.ts';
import { command } from './command.ts';

export const lampCheck = command({
  id: 'lamp-check',
  label: 'Lamp check',
  hint: 'Lights one lamp after the other and asks what you see.',
  shortcut: 'I',
  menu: 'Lamps',
  line: true,
  words: ['test', 'try each lamp', 'wrong wire', 'swap', 'LED'],
  when: ({ open }) => open.value.boards.length > 0,
  run: (_, surface) => toggle(surface, 'check'),
});
