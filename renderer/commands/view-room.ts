import { command } from './command.ts';

export const viewRoom = command({
  id: 'view-room',
  label: 'Across the room',
  hint: 'Plan, running intervals, seconds left.',
  shortcut: '1',
  when: () => true,
  run: ({ preferences }) => {
    preferences.distance.value = 'room';
  },
});
