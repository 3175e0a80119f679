import { command } from './command.ts';
import { chooseBy } from './site-at-hand.ts';
import { noLayout } from './why.ts';

export const nextSite = command({
  id: 'next-site',
  label: 'Next site',
  hint: 'Takes the next site of the layout in hand.',
  shortcut: ']',
  menu: 'Site',
  words: ['other', 'forward', 'junction', 'crossing'],
  when: ({ open }) => open.value.sites.length > 1,
  why: (model) => noLayout(model) ?? 'There is no other site.',
  run: (model) => chooseBy(model, 1),
});
