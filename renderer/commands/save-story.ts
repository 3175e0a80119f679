import { saveLogAs } from '../log/saving.ts';
import { command } from './command.ts';

export const saveStory = command({
  id: 'save-story',
  label: 'Save the story as a text',
  hint: 'Saves what happened in this session as a text that any editor opens.',
  shortcut: null,
  menu: 'File',
  words: ['export log', 'txt', 'print the log', 'report of the evening'],
  when: () => true,
  run: (model, surface) => saveLogAs(model, surface, 'txt', { opened: null, onlyShown: false }),
});
