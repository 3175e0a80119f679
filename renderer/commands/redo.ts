import { command } from './command.ts';

export const redo = command({
  id: 'redo',
  label: 'Redo',
  hint: 'Makes the change that was undone again.',
  shortcut: 'Ctrl+Shift+Z',
  menu: 'Edit',
  words: ['again', 'forward', 'repeat'],
  name: ({ history }) => (history.redoWhat.value === null ? 'Redo' : `Redo: ${history.redoWhat.value}`),
  when: ({ history }) => history.canRedo.value,
  why: () => 'Nothing was undone.',
  run: ({ history }) => history.redo(),
});
