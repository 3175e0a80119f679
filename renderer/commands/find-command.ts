import { command } from './command.ts';

export const findCommand = command({
  id: 'find-command',
  label: 'Find a command',
  hint: 'Type a few letters of what you want: a command, a site, a time, a chapter of the help.',
  shortcut: 'Ctrl+K',
  also: ['/'],
  menu: 'Help',
  words: ['search', 'look for', 'palette', 'where is'],
  when: () => true,
  run: (_, surface) => {
    surface.finder.value = true;
  },
});
