import { command } from './command.ts';
import { boardCall } from './site-at-hand.ts';

export const cancelSend = command({
  id: 'cancel-send',
  label: 'Cancel sending',
  hint: 'The board goes on with what it ran before.',
  shortcut: 'Shift+X',
  when: ({ boardAtHand }) => boardAtHand.value?.state.value.task?.name === 'send',
  run: (model) => boardCall(model, (board) => model.ask('cancelSend', { board: board.id })),
});
