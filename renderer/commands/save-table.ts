import { saveLogAs } from '../log/saving.ts';
import { command } from './command.ts';

export const saveTable = command({
  id: 'save-table',
  label: 'Save the story as a table',
  hint: 'Saves every entry of this session as a row for spreadsheets.',
  shortcut: null,
  menu: 'File',
  words: ['export log', 'csv', 'spreadsheet', 'columns'],
  when: () => true,
  run: (model, surface) => saveLogAs(model, surface, 'csv', { opened: null, onlyShown: false }),
});
