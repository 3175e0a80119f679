import { command } from './command.ts';

export const viewDesk = command({
  id: 'view-desk',
  label: 'At the desk',
  hint: 'Board, findings, log.',
  shortcut: '3',
  when: () => true,
  run: ({ preferences }) => {
    preferences.distance.value = 'desk';
  },
});
