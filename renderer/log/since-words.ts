/** What differs from what a board keeps, in words. */
import type { BoardState } from '../../shared/workbench/contract.ts';
import { counted } from '../../shared/workbench/story/counted.ts';
import type { TimeChange } from '../../shared/workbench/story/since.ts';
import { timeText } from '../../shared/workbench/words.ts';

/** `Market Cross green of Fore Street: 18.0 s to 22.0 s, 4.0 s longer, in three changes`. */
export function changeWords({ name, from, to, changes }: TimeChange): string {
  const many = changes > 1 ? `, in ${counted(changes, 'change')}` : '';
  if (from === null) return `${name}: now ${timeText(to)}${many}`;
  const by = Math.abs(to - from);
  return `${name}: ${timeText(from)} to ${timeText(to)}, ${timeText(by)} ${to > from ? 'longer' : 'shorter'}${many}`;
}

/** What a board keeps, where its times cannot be compared one by one; null where they can. */
export function storeWords({ link, kept, running }: Pick<BoardState, 'link' | 'kept' | 'running'>): string | null {
  if (link !== 'ready') return 'It is not connected, so this is what the log knows.';
  if (kept === 'none') return running === 'none' ? 'It runs and keeps nothing yet.' : 'It keeps nothing yet.';
  if (kept === 'other') return 'It keeps another layout than the open one, so times cannot be compared one by one.';
  if (running === 'other') return 'It runs another layout than the open one, so times cannot be compared one by one.';
  return kept === 'unknown' ? 'What it keeps is not known.' : null;
}
