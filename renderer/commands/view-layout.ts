import { command } from './command.ts';

export const viewLayout = command({
  id: 'view-layout',
  label: 'At the layout',
  hint: 'Dials of the site at hand.',
  shortcut: '2',
  menu: 'View',
  words: ['near', 'dials', 'times', 'tune', 'layout'],
  when: () => true,
  checked: ({ preferences }) => preferences.distance.value === 'layout',
  run: ({ preferences }) => {
    preferences.distance.value = 'layout';
  },
});
