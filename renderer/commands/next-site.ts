import { command } from './command.ts';
import { chooseBy } from './site-at-hand.ts';

export const nextSite = command({
  id: 'next-site',
  label: 'Next site',
  hint: 'Takes the next site of the layout in hand.',
  shortcut: ']',
  menu: 'Site',
  words: ['other', 'forward', 'junction', 'crossing'],
  when: ({ open }) => open.value.sites.length > 1,
  run: (model) => chooseBy(model, 1),
});
