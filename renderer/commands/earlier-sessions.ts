import { layOver } from '../model/surface.ts';
import { command } from './command.ts';

export const earlierSessions = command({
  id: 'earlier-sessions',
  label: 'Earlier sessions',
  hint: 'The logs of other evenings on this computer, to read, to search and to save.',
  shortcut: null,
  menu: 'View',
  words: ['old logs', 'past evenings', 'search all logs', 'last time', 'history', 'archive'],
  when: () => true,
  run: (model, surface) => {
    model.logbook.show('earlier');
    layOver(surface, 'logbook');
    surface.focus('search-all');
  },
});
