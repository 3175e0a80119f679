import { command } from './command.ts';

export const help = command({
  id: 'help',
  label: 'Keys and cautions',
  hint: 'All keys, and what this is not for.',
  shortcut: '?',
  when: () => true,
  run: (_, surface) => {
    surface.sheet.value = surface.sheet.value === 'help' ? null : 'help';
  },
});
