import { CommandButton } from '../commands/button.tsx';
import { usePanel } from '../model/context.ts';
import { firmwareOffer } from '../model/firmware.ts';
import { FirmwareNote } from './firmware-note.tsx';
import { ProblemText } from './problem.tsx';

/** On the plan, while no board runs this layout: why, and the next step. */
export function BoardNote() {
  const { model, surface } = usePanel();
  const board = model.boardAtHand.value;
  if (!board || board.runsLayout.value) return <FirmwareNote />;
  const { link, problem, powered, running, task } = board.state.value;
  // The sheet says the same with more room.
  if (surface.sheet.value === 'board' || surface.sheet.value === 'firmware') return null;
  if (link === 'opening' || link === 'greeting' || task) return null;
  if (link === 'ready' && running === 'unknown') return null;
  return (
    <aside class="board-note" aria-label="What to do">
      {link !== 'ready' ? (
        <>
          {problem ? (
            <ProblemText problem={problem} />
          ) : (
            <p>This layout has no board yet. Connect one, or the virtual board.</p>
          )}
          {firmwareOffer(board.state.value) && <CommandButton id="write-firmware" class="button strong" />}
          <CommandButton id={powered === false ? 'power' : 'board-sheet'}>
            {powered === false ? 'Switch on' : 'Board and port'}
          </CommandButton>
        </>
      ) : (
        <>
          <p>
            {running === 'none'
              ? 'The board runs nothing yet. Send the layout to it.'
              : 'The board runs another layout than this file. Send would replace it; nothing has been written.'}
          </p>
          <CommandButton id="send" class="button strong" />
        </>
      )}
    </aside>
  );
}
