import { SINCE_ID } from '../log/since-id.ts';
import { layOver } from '../model/surface.ts';
import { command } from './command.ts';

export const sinceKeep = command({
  id: 'since-keep',
  label: 'Changed since the last keep',
  hint: 'The times, the sends and the changes of the layout since each board was told to keep.',
  shortcut: 'Z',
  menu: 'View',
  words: ['differences', 'unkept', 'not kept', 'what changed', 'compare with kept', 'since keep'],
  when: () => true,
  run: (model, surface) => {
    model.logbook.show('now');
    model.logbook.since.value = true;
    layOver(surface, 'logbook');
    surface.focus(SINCE_ID);
  },
});
