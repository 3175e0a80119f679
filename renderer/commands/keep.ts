import { keepTimes } from '../model/keeping.ts';
import { layOver } from '../model/surface.ts';
import { command } from './command.ts';
import { boardCall, isReady, meant } from './site-at-hand.ts';
import { notRunning } from './why.ts';

export const keep = command({
  id: 'keep',
  label: 'Keep',
  hint: 'The running times become the ones that the board starts with. Undo makes it keep again what it kept before.',
  shortcut: 'K',
  menu: 'Board',
  line: true,
  words: ['store', 'save on the board', 'EEPROM', 'permanent', 'remember', 'burn'],
  when: (model, about) => isReady(model, about) && meant(model, about)?.state.value.unkept === true,
  why: (model, about) => notRunning(model, about) ?? 'The board has kept already what it runs.',
  run: (model, surface, about) =>
    boardCall(model, (board) => keepTimes(model, board, () => layOver(surface, 'keeps')), about),
});
