import { command } from './command.ts';
import { chooseBy } from './site-at-hand.ts';
import { noLayout } from './why.ts';

export const previousSite = command({
  id: 'previous-site',
  label: 'Previous site',
  hint: 'Takes the previous site of the layout in hand.',
  shortcut: '[',
  menu: 'Site',
  words: ['other', 'back', 'junction', 'crossing'],
  when: ({ open }) => open.value.sites.length > 1,
  why: (model) => noLayout(model) ?? 'There is no other site.',
  run: (model) => chooseBy(model, -1),
});
