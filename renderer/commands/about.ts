import { toggle } from '../model/surface.ts';
import { command } from './command.ts';

export const about = command({
  id: 'about',
  label: 'About and licences',
  hint: 'Versions of the program and its firmware, and the licences of everything inside.',
  shortcut: null,
  menu: 'Help',
  words: ['version', 'licence', 'license', 'open source', 'credits', 'copyright'],
  when: () => true,
  run: (_, surface) => toggle(surface, 'about'),
});
