import { CommandButton } from '../commands/button.tsx';
import { usePanel } from '../model/context.ts';

const LOST_TABLE = 'It answers again, but does not run this layout: it had not been kept, or the layout was changed.';

/** The board let go of the lamps; everything that was answered is there. */
export function Broken() {
  const { model } = usePanel();
  const { check } = model;
  const board = check.board.value ?? '';
  const isThere = model.board(board).runsLayout.value;
  const mustSend = !isThere && model.board(board).state.value.link === 'ready';
  return (
    <div class="check-part">
      <p class="check-says" role="status">
        {model.boardName(board)} let go of the lamps. What was answered is kept.
      </p>
      <p>
        {isThere
          ? 'It answers again.'
          : mustSend
            ? LOST_TABLE
            : 'Plug it in, or switch it on; it is looked for by itself.'}
      </p>
      {mustSend && (
        <p>
          <CommandButton id="send" about={{ board: model.board(board) }} class="button strong tall" />
        </p>
      )}
      <p class="row">
        <button
          type="button"
          class="button strong tall"
          aria-disabled={!isThere}
          onClick={() => isThere && check.goOn()}
        >
          Go on with the check
        </button>
        <button type="button" class="button tall" onClick={() => check.leave()}>
          Leave it for now
        </button>
      </p>
    </div>
  );
}
