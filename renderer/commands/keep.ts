import { command } from './command.ts';
import { boardCall, isReady, meant } from './site-at-hand.ts';
import { notRunning } from './why.ts';

export const keep = command({
  id: 'keep',
  label: 'Keep',
  hint: 'The running times become the ones that the board starts with.',
  shortcut: 'K',
  menu: 'Board',
  line: true,
  words: ['store', 'save on the board', 'EEPROM', 'permanent', 'remember', 'burn'],
  when: (model, about) => isReady(model, about) && meant(model, about)?.state.value.unkept === true,
  why: (model, about) => notRunning(model, about) ?? 'The board has kept already what it runs.',
  run: (model, _, about) => boardCall(model, (board) => model.ask('keep', { board: board.id }), about),
});
