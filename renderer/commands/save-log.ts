import { command } from './command.ts';

export const saveLog = command({
  id: 'save-log',
  label: 'Save the log',
  hint: 'Saves everything that happened in this session as a file.',
  shortcut: 'L',
  menu: 'File',
  words: ['history', 'diary', 'export', 'record of the evening', 'what happened'],
  when: () => true,
  run: async (model, surface) => {
    const outcome = await model.ask('readLog', {});
    if (outcome.ok) surface.saveFile(outcome.value.name, outcome.value.text);
  },
});
