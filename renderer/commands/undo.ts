import { command } from './command.ts';

export const undo = command({
  id: 'undo',
  label: 'Undo',
  hint: 'Takes the last change of a time or of the layout back.',
  shortcut: 'Ctrl+Z',
  when: ({ history }) => history.canUndo.value,
  run: ({ history }) => history.undo(),
});
