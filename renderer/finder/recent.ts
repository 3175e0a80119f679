/** What was chosen lately in the finder, the newest first; kept as words in one line. */
import type { Signal } from '@preact/signals';

const MOST = 6;
const BETWEEN = '|';

export function recentOf(kept: Signal<string>): string[] {
  return kept.value.split(BETWEEN).filter((id) => id !== '');
}

export function noteRecent(kept: Signal<string>, id: string): void {
  kept.value = [id, ...recentOf(kept).filter((it) => it !== id)].slice(0, MOST).join(BETWEEN);
}
