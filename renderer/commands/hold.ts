import { command } from './command.ts';
import { isReady, siteCall } from './site-at-hand.ts';

export const hold = command({
  id: 'hold',
  label: 'Hold',
  hint: 'Keeps the site at hand in its running interval, or lets it go on.',
  shortcut: 'H',
  menu: 'Site',
  line: true,
  words: ['freeze', 'stop', 'stay', 'wait', 'keep green'],
  when: isReady,
  run: (model) =>
    siteCall(model, (board, site) => model.ask('hold', { board: board.id, site, on: !board.state.value.held[site] })),
});
