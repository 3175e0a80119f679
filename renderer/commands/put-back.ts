import { putBack as putBackTimes } from '../model/put-back.ts';
import { command } from './command.ts';
import { boardCall, isReady } from './site-at-hand.ts';

export const putBack = command({
  id: 'put-back',
  label: 'Put back',
  hint: 'The kept times run again; the cycle goes on.',
  shortcut: 'B',
  when: (model) => {
    const state = model.boardAtHand.value?.state.value;
    return isReady(model) && state?.unkept === true && (state.kept === 'same' || state.kept === 'times');
  },
  run: (model) => boardCall(model, (board) => putBackTimes(model, board)),
});
