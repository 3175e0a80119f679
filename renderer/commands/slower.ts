import { changeSpeed } from '../board/speeds.ts';
import { command } from './command.ts';
import { boardCall } from './site-at-hand.ts';
import { notVirtual } from './why.ts';

export const slower = command({
  id: 'slower',
  label: 'Slower',
  hint: 'Lets the virtual board run slower.',
  shortcut: ',',
  menu: 'Board',
  words: ['speed', 'slow motion'],
  when: ({ boardAtHand }) => boardAtHand.value?.state.value.speed != null,
  why: notVirtual,
  run: (model) => boardCall(model, (board) => changeSpeed(model, board, -1)),
});
