import { command } from './command.ts';
import { noLayout } from './why.ts';

export const drawRoad = command({
  id: 'draw-road',
  label: 'Draw a road',
  hint: 'Each press on the plan sets a point; the last one again, or Enter, ends the road.',
  shortcut: 'Shift+A',
  menu: 'Edit',
  words: ['street', 'add road', 'new road', 'lane'],
  when: ({ open }) => open.value.layout !== null,
  why: noLayout,
  run: ({ plan, preferences }, surface) => {
    preferences.distance.value = 'layout';
    if (!plan.arranging.peek()) plan.arrange(true);
    plan.take(plan.tool.peek() === 'road' ? 'move' : 'road');
    if (plan.tool.peek() === 'road') surface.focus('road-cursor');
  },
});
