import { type Chapter, heading, list, steps, words } from '../block.ts';

export const plan: Chapter = {
  id: 'plan',
  title: 'The plan',
  words: [
    'map',
    'street',
    'move',
    'turn',
    'road',
    'zoom',
    'photo',
    'track plan',
    'new site',
    'place',
    'picture',
    'snap',
  ],
  blocks: [
    words('The plan shows the baseboard from above, with roads, heads and lamps where they stand. A lit lamp glows.'),
    list(
      'Press a site to take it in hand. Press a head to get the dials of its site, with the keyboard at its green.',
      'The wheel makes the plan larger where the pointer is; Closer (=), Further (-) and Whole plan (0) do it, too. Drag the ground to move it.',
      'Letters in lamps: R red, A amber, G green, W white, B blue, Y yellow. In each head they stand in the order red, amber, green, as on its post.',
    ),
    heading('New sites'),
    list(
      'New site (N) makes a junction, a crossing, beacons, signals or lamps from a few words, and puts it on the plan.',
      'Copy this site (Ctrl+D) makes it again beside itself, with its times, on outputs of its own.',
      'Make this site a template (Y) offers it among the new sites, in any layout.',
    ),
    heading('Arranging'),
    steps(
      'Press A. Drag a site to where it stands, or move it by the arrow keys: 10 mm, with Shift 1 mm.',
      'Turn it by its handle, or by comma and full stop: 15 degrees, with Shift 1 degree.',
      'Draw a road (Shift+A) point by point; the last point once more ends it. Points can be dragged, added and taken out.',
      'What is dragged goes to roads, right angles and the grid. Snap (Shift+G) lets it stand free.',
      'Press A again when it is done. Each step can be undone by itself.',
    ),
    heading('A picture underneath'),
    words(
      'Lay a picture under the plan (U): a track plan or a photo from above, as PNG, JPEG or WebP. Two points with the distance between them in millimetres give it its size. It is kept on this computer; the layout has its name and its place.',
    ),
  ],
};
