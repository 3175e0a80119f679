import { command } from './command.ts';

export const viewLayout = command({
  id: 'view-layout',
  label: 'At the layout',
  hint: 'Dials of the site at hand.',
  shortcut: '2',
  when: () => true,
  run: ({ preferences }) => {
    preferences.distance.value = 'layout';
  },
});
