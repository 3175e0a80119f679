/** Where the keyboard goes for what changed since the last keep. */
export const SINCE_ID = 'since-keep';
