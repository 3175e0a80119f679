import { command } from './command.ts';

export const theme = command({
  id: 'theme',
  label: 'Dark or light',
  hint: 'Changes between the dark and the light look.',
  shortcut: 'T',
  menu: 'View',
  line: true,
  words: ['night', 'bright', 'colours', 'colors', 'look', 'appearance', 'contrast'],
  when: () => true,
  run: ({ preferences: { theme } }) => {
    theme.value = theme.value === 'dark' ? 'light' : 'dark';
  },
});
