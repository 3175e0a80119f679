import { command } from './command.ts';
import { isReady } from './site-at-hand.ts';
import { notRunning } from './why.ts';

export const noteB = command({
  id: 'note-b',
  label: 'Note as B',
  hint: 'Remembers the running times as set B, to come back to with one key.',
  shortcut: null,
  menu: 'Site',
  words: ['remember times', 'snapshot', 'compare', 'store set'],
  when: (model) => isReady(model),
  why: notRunning,
  run: ({ sets }) => sets.note('B'),
});
