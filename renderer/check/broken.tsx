import { usePanel } from '../model/context.ts';

/** The board let go of the lamps; everything that was answered is there. */
export function Broken() {
  const { model } = usePanel();
  const { check } = model;
  const board = check.board.value ?? '';
  const isThere = model.board(board).runsLayout.value;
  return (
    <div class="check-part">
      <p class="check-says" role="status">
        {model.boardName(board)} went back to its sites. What was answered is kept.
      </p>
      <p>{isThere ? 'It answers again.' : 'Plug it in, or switch it on; it is looked for by itself.'}</p>
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
