import { command } from './command.ts';
import { noLayout } from './why.ts';

export const wholePlan = command({
  id: 'whole-plan',
  label: 'Whole plan',
  hint: 'Shows all of the baseboard.',
  shortcut: '0',
  menu: 'View',
  words: ['zoom', 'fit', 'everything', 'reset'],
  when: ({ open, plan }) => open.value.layout !== null && !plan.camera.isWhole.value,
  why: (model) => noLayout(model) ?? 'The whole plan is in sight.',
  run: ({ plan }) => {
    plan.camera.view.value = null;
  },
});
