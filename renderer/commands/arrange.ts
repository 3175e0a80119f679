import { command } from './command.ts';
import { noLayout } from './why.ts';

export const arrange = command({
  id: 'arrange',
  label: 'Arrange the plan',
  hint: 'Moves and turns sites, draws roads, lays a picture under the plan. Again: done.',
  shortcut: 'A',
  menu: 'Edit',
  words: ['move', 'turn', 'rotate', 'road', 'street', 'draw', 'baseboard', 'plan', 'track plan', 'picture', 'edit'],
  name: ({ plan }) => (plan.arranging.value ? 'Done arranging' : 'Arrange the plan'),
  when: ({ open }) => open.value.layout !== null,
  why: noLayout,
  run: ({ plan, preferences }) => {
    // Sites, roads and the picture are edited beside the plan at the layout.
    if (!plan.arranging.peek()) preferences.distance.value = 'layout';
    plan.arrange(!plan.arranging.peek());
  },
});
