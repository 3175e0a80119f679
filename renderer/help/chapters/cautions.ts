import { type Chapter, heading, list, words } from '../block.ts';

/** The three that everybody sees before anything else. Atmel 8271, 29.1: absolute maximum of an I/O pin. */
export const FIRST_CAUTIONS: readonly string[] = [
  'For lights on scale models, on extra-low voltage: a USB port or a 5 V supply. Never mains.',
  'Never for real traffic: nothing here is made or approved for that.',
  'Every LED needs its resistor; 40 mA through a pin is the most that the chip survives.',
];

export const cautions: Chapter = {
  id: 'cautions',
  title: 'Cautions',
  words: ['safety', 'danger', 'mains', 'voltage', 'soldering', 'real traffic', 'law', 'fire'],
  blocks: [
    list(...FIRST_CAUTIONS),
    heading('Electricity'),
    list(
      'Use a ready-made supply with a mark of conformity, 5 V, with a fuse or a limit of its current. Never open it.',
      'Switch the lamp supply off before you change a wire.',
      'Wires that become warm are too thin, or carry too much. Switch off and look at the currents in Plan the wiring.',
      'Keep wires of the lamps apart from wires of the track. Track supplies can kill a board.',
      'If you are not sure about a supply, ask a qualified electrician. Rules differ from country to country.',
    ),
    heading('Soldering'),
    list(
      'The tip is hot enough to burn skin and plastic at once. Put the iron into its stand, never on the layout.',
      'Open a window: the fumes of flux irritate. Wash your hands afterwards, all the more with leaded solder.',
      'Wear glasses when you cut wires. Ends fly.',
      'Solder with the supply off and the board unplugged.',
    ),
    heading('Real roads'),
    words(
      'The practices of each country are taken from published rules, as far as they are free to read, for lamps that look right on a model. They are no design of a real junction. Real signals are designed, built and approved by people who are licensed for it, under local codes.',
    ),
  ],
};
