import { type Chapter, heading, list, words } from '../block.ts';

export const files: Chapter = {
  id: 'files',
  title: 'Layout files',
  words: [
    'open',
    'save',
    'json',
    'recover',
    'crash',
    'backup',
    'template',
    'new',
    'recent',
    'autosave',
    'newer version',
  ],
  blocks: [
    words(
      'A layout is one text file: sites, times, wires, plan. It can be read and changed with any editor; the file names its schema, which comes with Amberwick.',
    ),
    list(
      'New layout (Ctrl+N) asks for scale, country, board and first site, and lights its first lamps.',
      'My layouts (Ctrl+O) has those that were saved, and those that were open lately. Open a layout (O) takes a file from anywhere; so does dropping it on the window.',
      'Save the layout (Ctrl+S) writes it to its file, Save under another name (Ctrl+Shift+S) to a new one. Save a copy hands a copy over.',
      'Opening a layout never touches a board. Send does.',
    ),
    heading('Nothing is lost'),
    list(
      'A copy of what is open is kept all the time. If the computer fails, the next start has it and says so.',
      'Closing without saving loses nothing: the next start opens what was open. Go back to what is saved drops the changes; Undo brings them back.',
      'A file with mistakes is not refused as a whole: each mistake is named with its place and what to do. The layout open before stays open.',
      'A file of a newer Amberwick opens as far as this one understands it. What it does not know is named, and stays in the file.',
      'A board can tell what it runs, but not the names: keep the file as well.',
    ),
  ],
};
