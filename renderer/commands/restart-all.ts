import { command } from './command.ts';
import { boardCall, isReady } from './site-at-hand.ts';
import { notRunning } from './why.ts';

export const restartAll = command({
  id: 'restart-all',
  label: 'Restart all sites',
  hint: 'Starts all sites of the board from the same moment.',
  shortcut: 'Shift+R',
  menu: 'Board',
  line: true,
  words: ['synchronise', 'together', 'same moment', 'begin', 'reset'],
  when: isReady,
  why: notRunning,
  run: (model) => boardCall(model, (board) => model.ask('again', { board: board.id, site: null })),
});
