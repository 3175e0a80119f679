import { usePanel } from '../model/context.ts';

/** The one moment at which the person must act: over everything, whatever else is open. */
export function PressNow() {
  const { model } = usePanel();
  const waiting = model.boards.value.filter((board) => board.state.value.task?.stage === 'press');
  if (waiting.length === 0) return null;
  return (
    <div class="press-now" role="alert">
      <p class="press-words">Press the reset button on the board now</p>
      <p>
        {waiting.map(({ id }) => model.boardName(id)).join(', ')}: a short press, and again every two seconds until
        writing begins. Its boot loader listens for about a second after each.
      </p>
    </div>
  );
}
