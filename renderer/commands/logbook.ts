import { toggle } from '../model/surface.ts';
import { command } from './command.ts';

export const logbook = command({
  id: 'logbook',
  label: 'Logbook',
  hint: 'The evening as a story, what changed since the last keep, your notes, and earlier evenings.',
  shortcut: 'Shift+L',
  menu: 'View',
  line: true,
  words: ['log', 'history', 'diary', 'journal', 'story', 'what happened', 'record', 'events', 'filter the log'],
  when: () => true,
  run: (model, surface) => {
    if (surface.sheet.value !== 'logbook') model.logbook.show('now');
    toggle(surface, 'logbook');
  },
});
