import { toggle } from '../model/surface.ts';
import { command } from './command.ts';

export const changesSheet = command({
  id: 'changes-sheet',
  label: 'Changed times',
  hint: 'Every change of a time in this session, with the way back to any moment of it.',
  shortcut: 'J',
  menu: 'Edit',
  words: ['history', 'journal', 'nudges', 'go back', 'timeline', 'walk back'],
  when: ({ siteAtHand }) => siteAtHand.value !== null,
  why: () => 'The layout has no site to tune.',
  run: (_, surface) => toggle(surface, 'changes'),
});
