import { type Chapter, list, words } from '../block.ts';

export const plan: Chapter = {
  id: 'plan',
  title: 'The plan',
  words: ['map', 'street', 'move', 'turn', 'road', 'zoom', 'photo', 'track plan', 'new site', 'place'],
  blocks: [
    words(
      'The plan shows the baseboard from above, with roads, heads and lamps where they stand. A lit lamp glows and has its letter.',
    ),
    list(
      'Press a site to take it in hand. Drag it, or use the arrow keys while it has the keyboard, to move it.',
      'New site (N) makes a junction, a crossing, beacons, signals or lamps from a few words, and puts it on the plan.',
      'Letters in lamps: R red, A amber, G green, W white, B blue, Y yellow. In each head they stand in the order red, amber, green, as on its post.',
    ),
  ],
};
