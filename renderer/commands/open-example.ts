import { command } from './command.ts';

export const openExample = command({
  id: 'open-example',
  label: 'Open Penmarrow',
  hint: 'Opens the example: a small town with two junctions and a zebra crossing.',
  shortcut: 'Shift+O',
  menu: 'File',
  words: ['example', 'demo', 'sample', 'Penmarrow', 'start again'],
  when: () => true,
  run: async (model) => {
    await model.ask('openExample', {});
  },
});
