import { command } from './command.ts';

export const openFile = command({
  id: 'open-file',
  label: 'Open a layout',
  hint: 'Opens a layout file of yours. The board is not touched.',
  shortcut: 'O',
  menu: 'File',
  words: ['load', 'import', 'json', 'read a file'],
  when: () => true,
  run: async (model, surface) => {
    // A shell with dialogs of the system knows where the file is, and can save to it.
    if (model.host.value?.shell === 'electron') {
      await model.ask('chooseFile', {});
      return;
    }
    const file = await surface.chooseFile();
    if (file) await model.ask('openText', file);
  },
});
