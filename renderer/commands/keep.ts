import { command } from './command.ts';
import { boardCall, isReady } from './site-at-hand.ts';

export const keep = command({
  id: 'keep',
  label: 'Keep',
  hint: 'The running times become the ones that the board starts with.',
  shortcut: 'K',
  when: (model) => isReady(model) && model.boardAtHand.value?.state.value.unkept === true,
  run: (model) => boardCall(model, (board) => model.ask('keep', { board: board.id })),
});
