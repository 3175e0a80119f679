import { CommandButton } from '../commands/button.tsx';
import { usePanel } from '../model/context.ts';
import { boardWords } from './words.ts';

/** Board and connection, always in sight; press it for ports and switches. */
export function BoardStatus() {
  const { model } = usePanel();
  const board = model.boardAtHand.value;
  if (!board) return null;
  const state = board.state.value;
  const name = model.open.value.layout?.boards.find(({ id }) => id === board.id)?.name ?? board.id;
  const others = model.boards.value.filter((it) => it !== board && it.state.value.link !== 'ready').length;
  return (
    <CommandButton id="board-sheet" class="board-status">
      <span class={`link ${state.link}`} aria-hidden="true" />
      <span class="board-name">
        {name}
        {state.virtual && <span class="board-kind"> virtual</span>}
      </span>
      <span class="board-words">
        {boardWords(state)}
        {others > 0 && `; ${others} more not connected`}
      </span>
      {state.task && (
        <progress max={Math.max(1, state.task.total)} value={state.task.done} aria-label={boardWords(state)} />
      )}
    </CommandButton>
  );
}
