import { type Chapter, list, words } from '../block.ts';

export const log: Chapter = {
  id: 'log',
  title: 'The log',
  words: [
    'history',
    'diary',
    'remark',
    'note',
    'photo',
    'export',
    'CSV',
    'report',
    'what was said',
    'earlier',
    'story',
  ],
  blocks: [
    words(
      'Everything that was done or happened is written down in one line, in the past tense, and kept on this computer.',
    ),
    list(
      'The logbook (Shift+L) tells it as a story: many small changes in one sentence, which opens; with filters and a search.',
      'Write a remark (M) puts a line of your own into it. A remark can be corrected later; the first words stay in the file.',
      'Attach a photo (Shift+C) notes where a photo is. The photo itself is neither read nor copied.',
      'Changed since the last keep (Z) says what would be lost with the power.',
      'Save the log (L) saves every entry as it is; the story can be saved as a text or as a table, too. Earlier sessions can be read and saved in the logbook.',
    ),
    list(
      'What was said (D): the last 200 lines between this computer and the board, each with its meaning.',
      'Save a report (Shift+D): a text for asking for help. It is shown first and has nothing private in it.',
    ),
  ],
};
