import { command } from './command.ts';

export const saveLayout = command({
  id: 'save-layout',
  label: 'Save the layout',
  hint: 'Saves the open layout as a file of its name.',
  shortcut: 'Ctrl+S',
  menu: 'File',
  words: ['store', 'export', 'download', 'json', 'write a file'],
  when: ({ text }) => text.value !== null,
  why: () => 'No layout is open.',
  run: ({ open, text }, surface) => {
    if (text.value !== null) surface.saveFile(open.value.file, text.value);
  },
});
