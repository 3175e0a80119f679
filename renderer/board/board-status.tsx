import { CommandButton } from '../commands/button.tsx';
import type { BoardModel } from '../model/board.ts';
import { usePanel } from '../model/context.ts';
import type { Model } from '../model/model.ts';
import { boardWords } from './words.ts';

/** Board and connection, always in sight; press it for ports and switches. */
export function BoardStatus() {
  const { model } = usePanel();
  const board = model.boardAtHand.value;
  if (!board) return null;
  const state = board.state.value;
  const name = model.boardName(board.id);
  const others = model.boards.value.filter((it) => it !== board);
  return (
    <CommandButton id="board-sheet" class="board-status">
      <span class={`link ${state.quiet ? 'quiet' : state.link}`} aria-hidden="true" />
      <span class="board-name">
        {name}
        {state.virtual && <span class="board-kind"> virtual</span>}
      </span>
      <span class="board-words">
        {boardWords(state)}
        {othersWords(others, model)}
      </span>
      {state.task && (
        <progress max={Math.max(1, state.task.total)} value={state.task.done} aria-label={boardWords(state)} />
      )}
    </CommandButton>
  );
}

/** The other boards only where they need somebody: one by name, more by number. */
function othersWords(others: readonly BoardModel[], model: Model): string {
  const away = others.filter(({ state }) => state.value.link !== 'ready' || state.value.quiet);
  const only = away[0];
  if (away.length === 1 && only) return `; ${model.boardName(only.id)}: ${boardWords(only.state.value)}`;
  return away.length > 1 ? `; ${away.length} more not answering` : '';
}
