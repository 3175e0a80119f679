import { toggle } from '../model/surface.ts';
import { command } from './command.ts';

export const layouts = command({
  id: 'layouts',
  label: 'My layouts',
  hint: 'Layouts that you saved, had open lately, or left without saving.',
  shortcut: 'Ctrl+O',
  menu: 'File',
  words: ['recent', 'folder', 'files', 'load', 'documents', 'recover'],
  when: () => true,
  run: (_, surface) => toggle(surface, 'layouts'),
});
