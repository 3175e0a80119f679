import { command } from './command.ts';

export const snap = command({
  id: 'snap',
  label: 'Snap',
  hint: 'What is dragged on the plan is drawn to roads, right angles and the grid, or stands free.',
  shortcut: 'Shift+G',
  menu: 'Edit',
  words: ['grid', 'magnet', 'align', 'free'],
  when: ({ plan }) => plan.arranging.value,
  why: () => 'It counts while the plan is arranged. Press A first.',
  run: ({ plan }) => plan.toggleSnap(),
});
