import { command } from './command.ts';

export const viewDesk = command({
  id: 'view-desk',
  label: 'At the desk',
  hint: 'Board, findings, log.',
  shortcut: '3',
  menu: 'View',
  words: ['log', 'findings', 'file', 'desk', 'problems'],
  when: () => true,
  checked: ({ preferences }) => preferences.distance.value === 'desk',
  run: ({ preferences }) => {
    preferences.distance.value = 'desk';
  },
});
