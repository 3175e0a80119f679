import { toggle } from '../model/surface.ts';
import { command } from './command.ts';
import { noLayout } from './why.ts';

export const trafficSheet = command({
  id: 'traffic-sheet',
  label: 'Share out by traffic',
  hint: 'Greens of the junction at hand from how busy its roads are.',
  shortcut: 'V',
  menu: 'Site',
  words: ['busy', 'flows', 'vehicles', 'green split', 'share', 'volumes'],
  when: ({ open, siteAtHand }) =>
    open.value.layout?.sites.find(({ id }) => id === siteAtHand.value?.id)?.kind === 'junction',
  why: (model) => noLayout(model) ?? 'The site at hand is no junction.',
  run: (_, surface) => toggle(surface, 'traffic'),
});
