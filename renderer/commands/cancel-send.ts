import { command } from './command.ts';
import { boardCall, meant } from './site-at-hand.ts';

export const cancelSend = command({
  id: 'cancel-send',
  label: 'Cancel sending',
  hint: 'The board goes on with what it ran before.',
  shortcut: 'Shift+X',
  menu: 'Board',
  words: ['stop', 'abort', 'break off'],
  when: (model, about) => meant(model, about)?.state.value.task?.name === 'send',
  why: () => 'Nothing is being sent.',
  run: (model, _, about) => boardCall(model, (board) => model.ask('cancelSend', { board: board.id }), about),
});
