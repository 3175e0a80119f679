import { toggle } from '../model/surface.ts';
import { command } from './command.ts';
import { noLayout } from './why.ts';

export const phasesSheet = command({
  id: 'phases-sheet',
  label: 'Phases',
  hint: 'The chart of the site at hand, with handles for its times, and its stages; both as pictures to save.',
  shortcut: 'Shift+P',
  menu: 'Site',
  line: true,
  words: ['chart', 'timing diagram', 'stages', 'bars', 'cycle', 'plan of times'],
  when: ({ siteAtHand }) => siteAtHand.value !== null,
  why: (model) => noLayout(model) ?? 'The layout has no site yet.',
  run: (_, surface) => toggle(surface, 'phases'),
});
