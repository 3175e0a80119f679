import { layOver } from '../model/surface.ts';
import { command } from './command.ts';

/** Shows the text first, so that it can be read before it leaves the computer. */
export const saveReport = command({
  id: 'save-report',
  label: 'Save a report',
  hint: 'Shows a text for asking for help, with nothing private in it, and saves it as a file.',
  shortcut: 'Shift+D',
  menu: 'Help',
  line: true,
  words: ['bug', 'support', 'ask', 'diagnostics', 'help me'],
  when: () => true,
  run: (_, surface) => layOver(surface, 'report'),
});
