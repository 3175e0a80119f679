import { nameFor, putAway } from '../files/saving.ts';
import { command } from './command.ts';

export const saveCopy = command({
  id: 'save-copy',
  label: 'Save a copy',
  hint: 'Hands over a copy of the open layout, to put anywhere. The layout keeps its own file.',
  shortcut: null,
  menu: 'File',
  words: ['export', 'download', 'json', 'backup', 'send to a friend'],
  when: ({ text }) => text.value !== null,
  why: () => 'No layout is open.',
  run: (model, surface) => {
    const text = model.text.value;
    if (text === null) return;
    surface.saveFile(nameFor(model), text);
    putAway(surface);
  },
});
