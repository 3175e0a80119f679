import { closeSheet } from '../model/surface.ts';
import { command } from './command.ts';

export const putAway = command({
  id: 'put-away',
  label: 'Put away',
  hint: 'Closes what lies over the view, or the message.',
  shortcut: 'Escape',
  words: ['close', 'escape', 'dismiss', 'hide'],
  when: () => true,
  run: (model, surface) => {
    if (surface.sheet.value !== null) closeSheet(surface);
    else if (model.plan.tool.value !== 'move') model.plan.take('move');
    else model.trouble.value = null;
  },
});
