import { type Chapter, heading, list, steps, words } from '../block.ts';

export const check: Chapter = {
  id: 'check',
  title: 'Checking the lamps',
  words: ['lamp check', 'swap', 'wrong lamp', 'dark', 'find my wiring', 'practise', 'self-check', 'measure', 'supply'],
  blocks: [
    steps(
      'Press I. Choose all lamps or a part of them, and begin. The board lights one lamp after the other.',
      'Look at the layout and answer: right, dark, another lamp, more than one. Single keys stand on the buttons.',
      'Where another lamp was lit, point at it on the plan. Amberwick finds out which wires have changed places.',
      'At the end it offers to change the plan instead of the soldering, or lists what to solder.',
    ),
    heading('Other ways'),
    list(
      'Find my wiring (Shift+I): forgotten wires. It lights free outputs, and you point at what you see.',
      'The self-check measures pins of the board without lighting anything for long: open, shorted, upside down, no resistor.',
      'Practise faults (Q): sets faults on the virtual board, and shows what its lamps really do.',
    ),
    words(
      'A check can be broken off and gone on with; what was answered is kept on this computer. Lamps go dark by themselves when the program ends in the middle.',
    ),
  ],
};
