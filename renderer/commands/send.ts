import { command } from './command.ts';
import { boardCall, meant } from './site-at-hand.ts';
import { notConnected } from './why.ts';

export const send = command({
  id: 'send',
  label: 'Send',
  hint: 'Sends the open layout to the board and runs it. Keep makes it stay.',
  shortcut: 'Shift+S',
  menu: 'Board',
  line: true,
  words: ['upload', 'transfer', 'load onto the board', 'download', 'write the layout'],
  when: (model, about) => {
    const board = meant(model, about);
    const isCompiled = model.open.value.boards.some(({ id }) => id === board?.id);
    return isCompiled && board?.state.value.link === 'ready' && board.state.value.task === null;
  },
  why: (model, about) => notConnected(model, about) ?? 'The findings say what keeps this layout from being sent.',
  run: (model, _, about) => boardCall(model, (board) => model.ask('send', { board: board.id }), about),
});
