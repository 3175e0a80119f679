import { usePanel } from '../model/context.ts';
import { sendKeepingTimes } from './plan-times.ts';

/** The board still has the limits of before; sending starts its sites anew, so it is offered and not done. */
export function UnsentNote({ board }: { readonly board: string }) {
  const { model } = usePanel();
  const { needsSending, task } = model.board(board).state.value;
  if (!needsSending) return null;
  return (
    <div class="unsent" role="status">
      <p>
        {model.boardName(board)} has the limits of times of before. Sending brings the new ones: its sites start from
        the beginning, with the times that run now.
      </p>
      <button
        type="button"
        class="button"
        aria-disabled={task !== null}
        onClick={() => {
          if (task === null) void sendKeepingTimes(model, board);
        }}
      >
        Send the limits
      </button>
    </div>
  );
}
