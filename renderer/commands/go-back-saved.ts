import { goBackToSaved } from '../files/saving.ts';
import { command } from './command.ts';

export const goBackSaved = command({
  id: 'go-back-saved',
  label: 'Go back to what is saved',
  hint: 'Drops all changes of the layout since it was saved. Undo brings them back.',
  shortcut: null,
  menu: 'File',
  words: ['revert', 'discard', 'drop changes', 'recovered', 'throw away'],
  when: ({ file }) => file.value?.unsaved === true,
  why: () => 'Everything is saved.',
  run: async (model) => {
    await goBackToSaved(model);
  },
});
