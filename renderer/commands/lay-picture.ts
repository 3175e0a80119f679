import { command } from './command.ts';
import { noLayout } from './why.ts';

export const layPicture = command({
  id: 'lay-picture',
  label: 'Lay a picture under the plan',
  hint: 'A track plan or a photo of the baseboard: PNG, JPEG or WebP.',
  shortcut: 'U',
  menu: 'Edit',
  words: ['underlay', 'track plan', 'photo', 'image', 'background', 'trace'],
  when: ({ open }) => open.value.layout !== null,
  why: noLayout,
  run: ({ plan, preferences }, surface) => {
    preferences.distance.value = 'layout';
    if (!plan.arranging.peek()) plan.arrange(true);
    surface.focus('lay-picture');
  },
});
