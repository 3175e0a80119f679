import { command } from './command.ts';

export const undo = command({
  id: 'undo',
  label: 'Undo',
  hint: 'Takes the last change of a time back.',
  shortcut: 'Ctrl+Z',
  when: ({ nudges }) => nudges.canUndo.value,
  run: ({ nudges }) => nudges.undo(),
});
