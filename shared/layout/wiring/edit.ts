/** What an edit of the wiring gives: another document, or what is in the way. */
import type { Finding } from '../../findings/finding.ts';
import { error } from '../../findings/make.ts';
import type { Layout } from '../schema.ts';

export interface Done {
  readonly layout: Layout;
  /** One line in the past tense, for the log and for undo. */
  readonly said: string;
}

export type Edited = Done | { readonly findings: readonly Finding[] };

export function refused(code: string, path: string, words: Pick<Finding, 'what' | 'why' | 'cure'>): Edited {
  return { findings: [error(code, path, words)] };
}

export function noSuchLamp(path: string): Edited {
  return refused('no-such-lamp', path, {
    what: `There is no lamp at ${path || 'this place'}.`,
    why: 'The layout has changed since it was looked up.',
    cure: 'Choose the lamp again.',
  });
}

export function noSuchBoard(board: string): Edited {
  return refused('no-such-board', 'boards', {
    what: `The layout has no board "${board}".`,
    why: 'The layout has changed since it was looked up.',
    cure: 'Choose the board again.',
  });
}
