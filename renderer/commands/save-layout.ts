import { save } from '../files/saving.ts';
import { command } from './command.ts';

export const saveLayout = command({
  id: 'save-layout',
  label: 'Save the layout',
  hint: 'Saves the open layout to its file. A new one asks for a name.',
  shortcut: 'Ctrl+S',
  menu: 'File',
  line: true,
  words: ['store', 'write a file', 'keep the file'],
  when: ({ text }) => text.value !== null,
  why: () => 'No layout is open.',
  run: save,
});
