import { command } from './command.ts';
import { isReady, siteCall } from './site-at-hand.ts';
import { notRunning } from './why.ts';

export const step = command({
  id: 'step',
  label: 'Step',
  hint: 'Ends the running interval of the site at hand.',
  shortcut: 'S',
  menu: 'Site',
  words: ['skip', 'next interval', 'forward', 'advance', 'go on'],
  when: isReady,
  why: notRunning,
  run: (model) => siteCall(model, (board, site) => model.ask('step', { board: board.id, site })),
});
