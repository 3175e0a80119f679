import { type Chapter, heading, list, steps, words } from '../block.ts';

export const wiring: Chapter = {
  id: 'wiring',
  title: 'Wires, resistors and currents',
  words: ['pin', 'output', 'LED', 'resistor', 'milliamps', 'shift register', 'parts', 'print', 'polarity', 'scale'],
  blocks: [
    steps(
      'Plan the wiring (Shift+W) shows each lamp at its output. Carry a lamp to another output with the mouse, or with the arrow keys.',
      'Choose the usual lamp of your layout, or give a single lamp its own figures: forward voltage, current, resistor.',
      'Look at Currents: the worst moment of the whole cycle, against what each output, each port and the whole chip carry.',
      'The wiring sheet (Shift+U) is what goes under the baseboard: wires with resistors, posts, parts and labels; to print or to save.',
    ),
    heading('What to keep in mind'),
    list(
      'An LED has a short leg: minus. It goes to GND where the layout says "lit when high", which is the usual way.',
      'One resistor for each LED, in series. Two LEDs in parallel at one resistor share the current unevenly.',
      'More lamps than pins: a chain of shift registers takes three pins and gives eight outputs each.',
      'Lamps that take more than the chip carries need transistors or a driver chip between.',
      'Scale and sizes (Shift+M) turns heights, lenses and speeds of the street into those of the model, and back.',
    ),
    words('A finding about wires says what, where, why and what to do; the number beside Findings counts them.'),
  ],
};
