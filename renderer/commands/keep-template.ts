import { keepAtHand } from '../new-site/copy.ts';
import { command } from './command.ts';

export const keepTemplate = command({
  id: 'keep-template',
  label: 'Make this site a template',
  hint: 'Puts the site at hand, with its times, among the templates for new sites, in any layout.',
  shortcut: 'Y',
  menu: 'Site',
  words: ['template', 'reuse', 'library', 'pattern'],
  when: ({ siteAtHand }) => siteAtHand.value !== null,
  why: () => 'No site is at hand.',
  run: async (model) => {
    await keepAtHand(model);
  },
});
