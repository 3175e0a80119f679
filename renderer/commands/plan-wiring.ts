import { toggle } from '../model/surface.ts';
import { command } from './command.ts';
import { noLayout } from './why.ts';

export const planWiring = command({
  id: 'plan-wiring',
  label: 'Plan the wiring',
  hint: 'Which lamp on which output, with its wire, its resistor and what the board carries.',
  shortcut: 'Shift+W',
  menu: 'Lamps',
  words: ['pins', 'outputs', 'resistor', 'current', 'wires', 'electrics', 'milliamps'],
  when: ({ open }) => open.value.layout !== null,
  why: noLayout,
  run: (_, surface) => toggle(surface, 'wiring'),
});
