import { putBack as putBackTimes } from '../model/put-back.ts';
import { command } from './command.ts';
import { boardCall, isReady, meant } from './site-at-hand.ts';
import { notRunning } from './why.ts';

export const putBack = command({
  id: 'put-back',
  label: 'Put back',
  hint: 'The kept times run again; the cycle goes on.',
  shortcut: 'B',
  menu: 'Board',
  words: ['restore', 'revert', 'kept times', 'discard'],
  when: (model, about) => {
    const state = meant(model, about)?.state.value;
    return isReady(model, about) && state?.unkept === true && (state.kept === 'same' || state.kept === 'times');
  },
  why: (model, about) => {
    const running = notRunning(model, about);
    if (running) return running;
    return meant(model, about)?.state.value.unkept
      ? 'What the board has kept is another layout. Kept before has the older ones.'
      : 'The board runs what it has kept.';
  },
  run: (model, _, about) => boardCall(model, (board) => putBackTimes(model, board), about),
});
