import { layOver } from '../model/surface.ts';
import { command } from './command.ts';

export const attachPhoto = command({
  id: 'attach-photo',
  label: 'Attach a photo',
  hint: 'Notes in the log where a photo of the layout is, with words of yours.',
  shortcut: 'Shift+C',
  menu: 'File',
  words: ['picture', 'camera', 'image', 'photograph', 'snapshot', 'note'],
  when: () => true,
  run: (model, surface) => {
    model.logbook.show('now', 'photo');
    layOver(surface, 'logbook');
    surface.focus('photo-path');
  },
});
