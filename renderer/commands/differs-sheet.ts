import { toggle } from '../model/surface.ts';
import { command } from './command.ts';

export const differsSheet = command({
  id: 'differs-sheet',
  label: 'What differs',
  hint: 'Planned, running and kept times side by side, and the way from one to the other.',
  shortcut: 'E',
  menu: 'Site',
  words: ['compare', 'difference', 'planned', 'kept', 'deviation', 'changed times'],
  when: ({ siteAtHand }) => siteAtHand.value !== null,
  why: () => 'The layout has no site to tune.',
  run: (_, surface) => toggle(surface, 'differs'),
});
