import { CommandButton } from '../commands/button.tsx';
import type { BoardModel } from '../model/board.ts';
import { usePanel } from '../model/context.ts';
import { firmwareOffer } from '../model/firmware.ts';
import { LessCurrent } from '../writing/less-current.tsx';
import { Progress } from '../writing/progress.tsx';
import { updateWords } from '../writing/words.ts';
import { BoardInputs } from './board-inputs.tsx';
import { BoardFacts } from './facts.tsx';
import { Ports } from './ports.tsx';
import { ProblemText } from './problem.tsx';
import { VirtualSwitches } from './virtual.tsx';
import { boardWords } from './words.ts';

/** Everything about the boards of the layout: where they are, what they run, what can be done. */
export function BoardPanel() {
  const { model } = usePanel();
  return (
    <section class="board-panel" aria-label="Boards">
      {model.boards.value.map((board) => (
        <OneBoard key={board.id} board={board} />
      ))}
      {model.boards.value.length === 0 && <p>The open file has no board yet.</p>}
    </section>
  );
}

function OneBoard({ board }: { readonly board: BoardModel }) {
  const { model } = usePanel();
  const state = board.state.value;
  const name = model.boardName(board.id);
  return (
    <article class="one-board" aria-label={name}>
      <h2>{name}</h2>
      <p class="board-line">{boardWords(state)}</p>
      <BoardTrouble board={board} />
      <BoardTask board={board} />
      {/* Each button is about this board, whichever is at hand. */}
      <p class="row">
        <CommandButton id="send" about={{ board }} class="button strong" />
        <CommandButton id="keep" about={{ board }} />
        <CommandButton id="put-back" about={{ board }} />
        {model.boardAtHand.value === board && <CommandButton id="earlier-keeps" />}
        <CommandButton id="pause" about={{ board }} pressed={state.paused}>
          {state.paused ? 'Go on' : 'Pause'}
        </CommandButton>
        <TakeInHand board={board} />
      </p>
      <VirtualSwitches board={board} />
      <BoardInputs board={board} />
      <LessCurrent state={state} />
      <BoardFacts state={state} />
      <Ports board={board} />
    </article>
  );
}

/** What is wrong with it, or could be newer, and the button that helps. */
function BoardTrouble({ board }: { readonly board: BoardModel }) {
  const state = board.state.value;
  const offer = firmwareOffer(state);
  if (state.problem) {
    return (
      <div class="board-trouble">
        <ProblemText problem={state.problem} />
        {offer && <CommandButton id="write-firmware" about={{ board }} class="button strong" />}
      </div>
    );
  }
  if (!offer) return null;
  return (
    <p class="row quiet-offer">
      <span>{updateWords(state)}</span>
      <CommandButton id="write-firmware" about={{ board }} />
    </p>
  );
}

function BoardTask({ board }: { readonly board: BoardModel }) {
  const { task } = board.state.value;
  if (!task) return null;
  if (task.name === 'firmware' || task.name === 'replace') return <Progress board={board} />;
  return (
    <p class="row">
      <progress max={Math.max(1, task.total)} value={task.done} aria-label="Done so far" />
      {task.name === 'send' && <CommandButton id="cancel-send" about={{ board }} />}
    </p>
  );
}

/** Keys act on the board of the site at hand; this takes one of another board. */
function TakeInHand({ board }: { readonly board: BoardModel }) {
  const { model } = usePanel();
  if (model.boardAtHand.value === board) return null;
  const site = model.open.value.sites.find((it) => it.board === board.id);
  return (
    <button type="button" class="button" disabled={!site} onClick={() => site && model.choose(site.id)}>
      Take in hand
    </button>
  );
}
