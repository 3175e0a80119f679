import { command } from './command.ts';

export const remark = command({
  id: 'remark',
  label: 'Write a remark',
  hint: 'Puts a line of your own into the log.',
  shortcut: 'M',
  menu: 'File',
  line: true,
  words: ['note', 'comment', 'annotate', 'diary', 'write down'],
  when: () => true,
  run: ({ preferences, logbook }, surface) => {
    if (surface.sheet.value === 'logbook') {
      logbook.show('now', 'note');
      surface.focus('note');
      return;
    }
    preferences.distance.value = 'desk';
    surface.focus('remark');
  },
});
