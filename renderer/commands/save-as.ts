import { beginSaveAs } from '../files/saving.ts';
import { command } from './command.ts';

export const saveAs = command({
  id: 'save-as',
  label: 'Save under another name',
  hint: 'Saves the open layout as another file, and goes on with that one.',
  shortcut: 'Ctrl+Shift+S',
  menu: 'File',
  words: ['save as', 'rename', 'store', 'folder'],
  when: ({ text }) => text.value !== null,
  why: () => 'No layout is open.',
  run: beginSaveAs,
});
