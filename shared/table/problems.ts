/**
 * What can be wrong with a phase table or a board image, as findings. The codes
 * are the keys of the protocol's codes, so that app and board say the same.
 */
import type { Finding } from '../findings/finding.ts';

const WORDS = {
  tooLong: {
    why: 'The board keeps the table in memory of fixed size.',
    cure: 'Make the layout smaller or use a larger board.',
  },
  badFormat: {
    why: 'The image was made for another version of the firmware.',
    cure: 'Update the firmware of the board, or the app.',
  },
  badCount: {
    why: 'The board has room for a fixed number of each.',
    cure: 'Make the layout smaller or use a larger board.',
  },
  badLength: {
    why: 'Parts that do not fit together cannot be run.',
    cure: 'Make the board image again from the layout.',
  },
  badOutput: { why: 'A lamp there could never be lit.', cure: 'Choose another output.' },
  badInput: { why: 'Nothing could ever be heard there.', cure: 'Choose another pin or input.' },
  badDial: {
    why: 'The board must be able to trust the limits of every time.',
    cure: 'Correct the dial number or its limits.',
  },
  badRow: { why: 'The firmware would not know what to do there.', cure: 'Correct the row.' },
  badTarget: { why: 'The site would have no row to go on with.', cure: 'Name a row of the program.' },
  badTime: {
    why: 'The board counts 10 ms steps up to 327.67 s and whole seconds up to 32,767 s, within the limits of each dial.',
    cure: 'Choose a time within the limits that the board can count.',
  },
  conflict: { why: 'Two streams that cross would both be told to go.', cure: 'Check the stages and the rows.' },
  badSite: { why: 'The site could not run.', cure: 'Correct the site.' },
  pinTwice: { why: 'Two things would fight for one wire.', cure: 'Give each lamp, input and chain line its own pin.' },
} as const;

/** Keys of the protocol's codes that a table can break. */
export type ProblemCode = keyof typeof WORDS;

/** An error about a table or an image. `path` is a place in the table, or `image[N]` for byte N. */
export function problem(code: ProblemCode, path: string, what: string): Finding {
  return { severity: 'error', code, path, what, ...WORDS[code] };
}
