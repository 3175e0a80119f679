import type { BoardState } from '../../shared/workbench/contract.ts';
import { chipWords } from './words.ts';

/** Told where a board turned out to carry less than the layout was planned for. */
export function LessCurrent({ state }: { readonly state: BoardState }) {
  const { name, current, isLess } = chipWords(state);
  if (!isLess) return null;
  return (
    <p class="marked">
      <b>Lower limit.</b> This chip is an {name}: {current}. Count the lamps that are lit at the same time.
    </p>
  );
}
