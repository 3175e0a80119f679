import { command } from './command.ts';

export const undo = command({
  id: 'undo',
  label: 'Undo',
  hint: 'Takes the last change of a time or of the layout back.',
  shortcut: 'Ctrl+Z',
  menu: 'Edit',
  words: ['revert', 'take back', 'mistake', 'oops', 'back'],
  name: ({ history }) => (history.undoWhat.value === null ? 'Undo' : `Undo: ${history.undoWhat.value}`),
  when: ({ history }) => history.canUndo.value,
  why: () => 'Nothing was changed yet.',
  run: ({ history }) => history.undo(),
});
