/** What a chapter of the help is made of; plain data, so that it can be searched. */

export type Block =
  | { readonly is: 'heading'; readonly text: string }
  | { readonly is: 'words'; readonly text: string }
  | { readonly is: 'list' | 'steps'; readonly items: readonly string[] }
  /** A key or a word, and what it means. */
  | { readonly is: 'terms'; readonly rows: readonly (readonly [term: string, meaning: string])[] }
  /** What is shown, the likely cause, the next step. */
  | { readonly is: 'troubles'; readonly rows: readonly (readonly [what: string, why: string, next: string])[] };

export interface Chapter {
  readonly id: string;
  readonly title: string;
  /** What people may look for, beside its text. */
  readonly words: readonly string[];
  readonly blocks: readonly Block[];
}

export const heading = (text: string): Block => ({ is: 'heading', text });
export const words = (text: string): Block => ({ is: 'words', text });
export const list = (...items: string[]): Block => ({ is: 'list', items });
export const steps = (...items: string[]): Block => ({ is: 'steps', items });
