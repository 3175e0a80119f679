import { ZOOM_STEP } from '../model/plan-view.ts';
import { command } from './command.ts';
import { noLayout } from './why.ts';

export const further = command({
  id: 'further',
  label: 'Further',
  hint: 'Shows more of the plan, smaller.',
  shortcut: '-',
  menu: 'View',
  words: ['zoom out', 'smaller'],
  when: ({ open, plan }) => open.value.layout !== null && !plan.camera.isWhole.value,
  why: (model) => noLayout(model) ?? 'The whole plan is in sight.',
  run: ({ plan }) => plan.camera.zoomBy(1 / ZOOM_STEP),
});
