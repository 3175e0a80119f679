import { toggle } from '../model/surface.ts';
import { command } from './command.ts';
import { noLayout } from './why.ts';

export const scaleSheet = command({
  id: 'scale-sheet',
  label: 'Scale and sizes',
  hint: 'Posts, heads, lenses and speeds of the street at the scale of the layout, and back.',
  shortcut: 'Shift+M',
  menu: 'Lamps',
  words: ['sizes', 'convert', 'millimetres', 'post height', 'lens', 'scale', 'ratio'],
  when: ({ open }) => open.value.layout !== null,
  why: noLayout,
  run: (_, surface) => toggle(surface, 'scale'),
});
