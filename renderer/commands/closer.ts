import { ZOOM_STEP } from '../model/plan-view.ts';
import { command } from './command.ts';
import { noLayout } from './why.ts';

export const closer = command({
  id: 'closer',
  label: 'Closer',
  hint: 'Shows the plan larger. The wheel does it where the pointer is.',
  shortcut: '=',
  menu: 'View',
  words: ['zoom in', 'larger', 'magnify'],
  when: ({ open }) => open.value.layout !== null,
  why: noLayout,
  run: ({ plan }) => plan.camera.zoomBy(ZOOM_STEP, plan.camera.view.peek() ? undefined : plan.placeAtHand()),
});
