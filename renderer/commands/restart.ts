import { command } from './command.ts';
import { isReady, siteCall } from './site-at-hand.ts';
import { notRunning } from './why.ts';

export const restart = command({
  id: 'restart',
  label: 'Restart',
  hint: 'Starts the site at hand from the beginning.',
  shortcut: 'R',
  menu: 'Site',
  words: ['begin', 'from the start', 'reset', 'again'],
  when: isReady,
  why: notRunning,
  run: (model) => siteCall(model, (board, site) => model.ask('again', { board: board.id, site })),
});
