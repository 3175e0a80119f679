import { canReplace } from '../model/firmware.ts';
import type { Model } from '../model/model.ts';
import { layOver } from '../model/surface.ts';
import { type About, command } from './command.ts';
import { meant } from './site-at-hand.ts';

/** Opens the question; nothing is written before it is answered. */
export const replaceBoard = command({
  id: 'replace-board',
  label: 'Put it in the place of the old board',
  hint: 'The board at this port gets firmware, name and times of the one that does not answer, after a question.',
  shortcut: null,
  words: ['swap', 'new board', 'broken board', 'spare'],
  name: (model, about) => {
    const board = meant(model, about);
    return `Put this board in the place of ${board ? model.boardName(board.id) : 'the old board'}`;
  },
  when: (model, about) => portOf(model, about) !== null && model.writing.now.value?.step !== 'work',
  why: () => 'This is for a new board at its port, while the old one does not answer.',
  run: (model, surface, about) => {
    const board = meant(model, about);
    const port = portOf(model, about);
    if (!board || !port) return;
    model.writing.ask({ is: 'replace', board: board.id, port: port.path });
    layOver(surface, 'firmware');
  },
});

function portOf(model: Model, about?: About) {
  const board = meant(model, about);
  const port = model.ports.value.find(({ path }) => path === about?.port);
  return board && port && canReplace(board.state.value, port) ? port : null;
}
