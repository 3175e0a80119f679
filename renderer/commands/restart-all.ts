import { command } from './command.ts';
import { notRunning } from './why.ts';

export const restartAll = command({
  id: 'restart-all',
  label: 'Restart all sites',
  hint: 'Starts all sites from the same moment: of one board exactly, of several within some hundredths of a second.',
  shortcut: 'Shift+R',
  menu: 'Board',
  line: true,
  words: ['synchronise', 'together', 'same moment', 'begin', 'reset'],
  when: ({ boards }) => boards.value.some((board) => board.runsLayout.value),
  why: notRunning,
  run: async (model) => {
    const ready = model.boards.value.filter((board) => board.runsLayout.value);
    const [only] = ready;
    if (ready.length > 1) await model.ask('startTogether', {});
    else if (only) await model.ask('again', { board: only.id, site: null });
  },
});
