import { toggle } from '../model/surface.ts';
import { command } from './command.ts';

export const setsSheet = command({
  id: 'sets-sheet',
  label: 'A and B',
  hint: 'Two sets of times to go to and fro between: what each has, and what differs.',
  shortcut: 'Shift+E',
  menu: 'Site',
  words: ['compare', 'two sets', 'A/B', 'alternatives', 'variants'],
  when: ({ siteAtHand }) => siteAtHand.value !== null,
  why: () => 'The layout has no site to tune.',
  run: (_, surface) => toggle(surface, 'sets'),
});
