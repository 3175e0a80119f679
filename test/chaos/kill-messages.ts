/** What the host that is to be killed tells the test, each message before the next thing is done. */

/** Things that must not be lost: kept times of both boards, the open layout, the lamp check, a remark. */
export type Thing = 'virtual' | 'bench' | 'layout' | 'check' | 'remark';

export type FromHost =
  /** Everything has been read, as a person sees it. Null: the board has not been met in this life, or nothing is kept. */
  | { readonly type: 'began'; readonly kept: number | null; readonly layout: string; readonly check: string | null }
  /** It is about to be done: from here on the old or the new is right. */
  | { readonly type: 'wanted'; readonly thing: Thing; readonly value: string }
  /** The host has said that it is done: from here on nothing else is right. */
  | { readonly type: 'done'; readonly thing: Thing; readonly value: string }
  /** A line of the log that the panel was told of. */
  | { readonly type: 'logged'; readonly number: number }
  /** Something is wrong with the test or with the host. */
  | { readonly type: 'broken'; readonly cause: string };

/** Port of the board on the bench. */
export const BENCH = '/bench/board';
export const BOARD = 'town';
