import { toggle } from '../model/surface.ts';
import { command } from './command.ts';
import { noLayout } from './why.ts';

export const waveSheet = command({
  id: 'wave-sheet',
  label: 'Green wave',
  hint: 'Junctions of one street on one cycle, with offsets for the speed of its traffic.',
  shortcut: 'G',
  menu: 'Site',
  words: ['coordination', 'offset', 'progression', 'street', 'time-distance', 'speed'],
  when: ({ open }) => (open.value.layout?.sites.filter(({ kind }) => kind === 'junction').length ?? 0) > 1,
  why: (model) => noLayout(model) ?? 'A green wave needs two junctions or more.',
  run: (_, surface) => toggle(surface, 'wave'),
});
