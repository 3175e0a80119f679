import { command } from './command.ts';
import { isReady, siteCall } from './site-at-hand.ts';
import { notRunning } from './why.ts';

export const hold = command({
  id: 'hold',
  label: 'Hold',
  hint: 'Keeps the site at hand in its running interval, or lets it go on.',
  shortcut: 'H',
  menu: 'Site',
  line: true,
  words: ['freeze', 'stop', 'stay', 'wait', 'keep green'],
  when: isReady,
  why: notRunning,
  checked: ({ siteAtHand, boardAtHand }) =>
    boardAtHand.value?.state.value.held[siteAtHand.value?.number ?? -1] === true,
  run: (model) =>
    siteCall(model, (board, site) => model.ask('hold', { board: board.id, site, on: !board.state.value.held[site] })),
});
