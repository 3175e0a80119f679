import { toggle } from '../model/surface.ts';
import { command } from './command.ts';

export const framesSheet = command({
  id: 'frames-sheet',
  label: 'What was said',
  hint: 'The last 200 lines between this computer and the board, each with its meaning.',
  shortcut: 'D',
  menu: 'Board',
  line: true,
  words: ['serial monitor', 'protocol', 'lines', 'messages', 'debug', 'trace'],
  when: ({ boards }) => boards.value.length > 0,
  why: () => 'The layout has no board yet.',
  run: (_, surface) => toggle(surface, 'frames'),
});
