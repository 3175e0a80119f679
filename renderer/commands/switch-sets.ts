import { command } from './command.ts';
import { isReady } from './site-at-hand.ts';
import { notRunning } from './why.ts';

export const switchSets = command({
  id: 'switch-sets',
  label: 'Switch A and B',
  hint: 'Runs the other of the two sets of times.',
  shortcut: 'X',
  menu: 'Site',
  words: ['compare', 'alternate', 'toggle', 'A/B', 'other set', 'exchange'],
  name: ({ sets }) => `Switch to ${sets.next}`,
  when: (model) => isReady(model) && model.sets.has('A') && model.sets.has('B'),
  why: (model) => notRunning(model) ?? 'Note two sets of times first, as A and as B.',
  run: ({ sets }) => sets.switch(),
});
