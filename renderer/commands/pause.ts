import { command } from './command.ts';
import { boardCall, isReady } from './site-at-hand.ts';
import { notRunning } from './why.ts';

export const pause = command({
  id: 'pause',
  label: 'Pause the board',
  hint: 'No interval ends until it goes on; flashing lamps flash on.',
  shortcut: 'P',
  menu: 'Board',
  words: ['freeze', 'stop', 'halt', 'stand still'],
  when: isReady,
  why: notRunning,
  checked: ({ boardAtHand }) => boardAtHand.value?.state.value.paused === true,
  run: (model, _, about) =>
    boardCall(model, (board) => model.ask('pause', { board: board.id, on: !board.state.value.paused }), about),
});
