import { changeSpeed } from '../board/speeds.ts';
import { command } from './command.ts';
import { boardCall } from './site-at-hand.ts';
import { notVirtual } from './why.ts';

export const faster = command({
  id: 'faster',
  label: 'Faster',
  hint: 'Lets the virtual board run faster.',
  shortcut: '.',
  menu: 'Board',
  words: ['speed', 'quick', 'time lapse'],
  when: ({ boardAtHand }) => boardAtHand.value?.state.value.speed != null,
  why: notVirtual,
  run: (model) => boardCall(model, (board) => changeSpeed(model, board, 1)),
});
