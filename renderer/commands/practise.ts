import { toggle } from '../model/surface.ts';
import { command } from './command.ts';

export const practise = command({
  id: 'practise',
  label: 'Practise faults',
  hint: 'Sets wiring faults on the virtual board, and shows what its lamps really do.',
  shortcut: 'Q',
  menu: 'Lamps',
  words: ['simulate', 'faults', 'broken', 'short circuit', 'train', 'what if'],
  when: ({ boards }) => boards.value.some(({ state }) => state.value.virtual),
  why: () => 'No virtual board is connected.',
  run: (_, surface) => toggle(surface, 'practise'),
});
