import { command } from './command.ts';
import { boardCall } from './site-at-hand.ts';

export const send = command({
  id: 'send',
  label: 'Send',
  hint: 'Sends the open layout to the board and runs it. Keep makes it stay.',
  shortcut: 'Shift+S',
  when: ({ boardAtHand, open }) => {
    const board = boardAtHand.value;
    const isCompiled = open.value.boards.some(({ id }) => id === board?.id);
    return isCompiled && board?.state.value.link === 'ready' && board.state.value.task === null;
  },
  run: (model) => boardCall(model, (board) => model.ask('send', { board: board.id })),
});
