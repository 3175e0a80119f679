import { command } from './command.ts';
import { boardCall, meant } from './site-at-hand.ts';

export const cancelFirmware = command({
  id: 'cancel-firmware',
  label: 'Cancel writing',
  hint: 'Breaks the writing of the firmware off. The board may be empty then; nothing is broken.',
  shortcut: 'Shift+F',
  menu: 'Board',
  words: ['stop', 'abort', 'break off'],
  when: (model, about) => {
    const task = meant(model, about)?.state.value.task;
    return (task?.name === 'firmware' || task?.name === 'replace') && task.cancellable === true;
  },
  why: () => 'No firmware is being written that could still be broken off.',
  run: (model, _, about) => boardCall(model, (board) => model.ask('cancelFirmware', { board: board.id }), about),
});
