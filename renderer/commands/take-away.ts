import { takeAway } from '../../shared/layout/new-site/take-away.ts';
import { writeLayout } from '../../shared/layout/write.ts';
import { command } from './command.ts';
import { noLayout } from './why.ts';

export const takeSiteAway = command({
  id: 'take-away',
  label: 'Take away this site',
  hint: 'The site at hand leaves the layout, with the buttons that only it has. Undo brings it back.',
  shortcut: 'Shift+N',
  menu: 'Site',
  words: ['delete', 'remove', 'erase'],
  when: ({ open, siteAtHand }) => siteAtHand.value !== null && (open.value.layout?.sites.length ?? 0) > 1,
  why: (model) => noLayout(model) ?? 'The last site of a layout stays. Add another one first.',
  run: async (model) => {
    const { layout } = model.open.value;
    const site = model.siteAtHand.value;
    if (!layout || !site) return;
    await model.change(writeLayout(takeAway(layout, site.id)), `Took ${site.names.name} away.`);
  },
});
