import { toggle } from '../model/surface.ts';
import { command } from './command.ts';
import { noLayout } from './why.ts';

export const newSite = command({
  id: 'new-site',
  label: 'New site',
  hint: 'A junction, a crossing, beacons, signals or lamps, made from a few words.',
  shortcut: 'N',
  menu: 'Site',
  line: true,
  words: ['add', 'junction', 'crossing', 'zebra', 'pelican', 'level crossing', 'beacon', 'lamp', 'insert'],
  when: ({ open }) => open.value.layout !== null,
  why: noLayout,
  run: (_, surface) => toggle(surface, 'new-site'),
});
