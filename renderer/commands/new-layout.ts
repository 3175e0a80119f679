import { toggle } from '../model/surface.ts';
import { command } from './command.ts';

export const newLayout = command({
  id: 'new-layout',
  label: 'New layout',
  hint: 'A layout of your own: four choices, and its first lamps are lit.',
  shortcut: 'Ctrl+N',
  menu: 'File',
  words: ['begin', 'start', 'create', 'blank', 'wizard', 'scale', 'country', 'era'],
  when: () => true,
  run: (_, surface) => toggle(surface, 'new-layout'),
});
