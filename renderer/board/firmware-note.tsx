import { CommandButton } from '../commands/button.tsx';
import { usePanel } from '../model/context.ts';
import { updateWords } from '../writing/words.ts';
import { putOff, toUpdate } from './to-update.ts';

/** On the plan, for a board that answers: this app has newer firmware. One press leads to the question. */
export function FirmwareNote() {
  const { model, surface } = usePanel();
  // The sheets say the same with more room.
  if (surface.sheet.value !== null) return null;
  const [board] = toUpdate(model.boards.value);
  if (!board) return null;
  const name = model.boardName(board.id);
  return (
    <aside class="board-note" aria-label={`Newer firmware for ${name}`}>
      <p>
        {name}: {updateWords(board.state.value)} What the board keeps stays.
      </p>
      <CommandButton id="write-firmware" about={{ board }} />
      <button type="button" class="button" onClick={() => putOff(board)}>
        Later
      </button>
    </aside>
  );
}
