import { command } from './command.ts';

export const viewRoom = command({
  id: 'view-room',
  label: 'Across the room',
  hint: 'Plan, running intervals, seconds left.',
  shortcut: '1',
  menu: 'View',
  words: ['far', 'big', 'large figures', 'room', 'distance'],
  when: () => true,
  checked: ({ preferences }) => preferences.distance.value === 'room',
  run: ({ preferences }) => {
    preferences.distance.value = 'room';
  },
});
