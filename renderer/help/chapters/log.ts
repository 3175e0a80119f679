import { type Chapter, list, words } from '../block.ts';

export const log: Chapter = {
  id: 'log',
  title: 'The log',
  words: ['history', 'diary', 'remark', 'export', 'CSV', 'report', 'what was said', 'earlier'],
  blocks: [
    words(
      'Everything that was done or happened is written down in one line, in the past tense, and kept on this computer.',
    ),
    list(
      'Write a remark (M) puts a line of your own into it.',
      'Save the log (L) saves it as a file.',
      'What was said (D): the last 200 lines between this computer and the board, each with its meaning.',
      'Save a report (Shift+D): a text for asking for help. It is shown first and has nothing private in it.',
    ),
  ],
};
