import { command } from './command.ts';
import { boardCall } from './site-at-hand.ts';
import { notVirtual } from './why.ts';

export const power = command({
  id: 'power',
  label: 'Switch of the virtual board',
  hint: 'Switches the virtual board off or on. Off loses what was not kept.',
  shortcut: 'W',
  menu: 'Board',
  line: true,
  words: ['switch off', 'switch on', 'turn off', 'power cut'],
  when: ({ boardAtHand }) => boardAtHand.value?.state.value.powered != null,
  why: notVirtual,
  checked: ({ boardAtHand }) => boardAtHand.value?.state.value.powered === true,
  run: (model) => boardCall(model, (board) => model.ask('power', { board: board.id, on: !board.state.value.powered })),
});
