import { toggle } from '../model/surface.ts';
import { command } from './command.ts';

export const boardSheet = command({
  id: 'board-sheet',
  label: 'Board and port',
  hint: 'Ports, connection, switch and speed of the virtual board.',
  shortcut: 'C',
  menu: 'Board',
  words: ['connect', 'disconnect', 'USB', 'serial', 'port', 'cable', 'plug', 'speed'],
  when: () => true,
  run: (_, surface) => toggle(surface, 'board'),
});
