import { problemOf } from '../findings/problem.ts';
import { copyAtHand } from '../new-site/copy.ts';
import { command } from './command.ts';

export const copySite = command({
  id: 'copy-site',
  label: 'Copy this site',
  hint: 'The site at hand again, beside itself, with its times, on outputs of its own.',
  shortcut: 'Ctrl+D',
  menu: 'Site',
  words: ['duplicate', 'clone', 'twice', 'same again'],
  when: ({ siteAtHand }) => siteAtHand.value !== null,
  why: () => 'No site is at hand.',
  run: async (model) => {
    const [finding] = await copyAtHand(model);
    if (finding) model.trouble.value = { about: {}, problem: problemOf(finding) };
  },
});
