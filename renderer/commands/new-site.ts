import { toggle } from '../model/surface.ts';
import { command } from './command.ts';

export const newSite = command({
  id: 'new-site',
  label: 'New site',
  hint: 'A junction, a crossing, beacons, signals or lamps, made from a few words.',
  shortcut: 'N',
  menu: 'Site',
  line: true,
  words: ['add', 'junction', 'crossing', 'zebra', 'pelican', 'level crossing', 'beacon', 'lamp', 'insert'],
  when: ({ open }) => open.value.layout !== null,
  run: (_, surface) => toggle(surface, 'new-site'),
});
