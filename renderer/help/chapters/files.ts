import { type Chapter, list, words } from '../block.ts';

export const files: Chapter = {
  id: 'files',
  title: 'Layout files',
  words: ['open', 'save', 'json', 'recover', 'crash', 'backup', 'template', 'copy', 'recent', 'autosave'],
  blocks: [
    words(
      'A layout is one text file: sites, times, wires, plan. It can be read and changed with any editor; its schema comes with Amberwick.',
    ),
    list(
      'Opening a layout never touches a board. Send does.',
      'A copy of what is open is kept all the time. If the computer fails, the next start has it.',
      'A file with mistakes is not refused as a whole: each mistake is named with its place and what to do. The layout open before stays open.',
      'A board can tell what it runs, but not the names: keep the file as well.',
    ),
  ],
};
