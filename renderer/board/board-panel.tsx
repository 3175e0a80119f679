import { CommandButton } from '../commands/button.tsx';
import type { BoardModel } from '../model/board.ts';
import { usePanel } from '../model/context.ts';
import { Ports } from './ports.tsx';
import { ProblemText } from './problem.tsx';
import { VirtualSwitches } from './virtual.tsx';
import { boardWords, causeWords, tableWords } from './words.ts';

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
  const planned = model.open.value.layout?.boards.find(({ id }) => id === board.id);
  const isAtHand = model.boardAtHand.value === board;
  const siteOfBoard = model.open.value.sites.find((site) => site.board === board.id);
  return (
    <article class="one-board" aria-label={planned?.name ?? board.id}>
      <h2>{planned?.name ?? board.id}</h2>
      <p class="board-line">{boardWords(state)}</p>
      {state.problem && <ProblemText problem={state.problem} />}
      {state.task && (
        <p class="row">
          <progress max={Math.max(1, state.task.total)} value={state.task.done} aria-label="Done so far" />
          {state.task.name === 'send' && <CommandButton id="cancel-send" />}
        </p>
      )}
      {isAtHand ? (
        <p class="row">
          <CommandButton id="send" class="button strong" />
          <CommandButton id="keep" />
          <CommandButton id="put-back" />
          <CommandButton id="pause" pressed={state.paused}>
            {state.paused ? 'Go on' : 'Pause'}
          </CommandButton>
        </p>
      ) : (
        <button
          type="button"
          class="button"
          disabled={!siteOfBoard}
          onClick={() => siteOfBoard && model.choose(siteOfBoard.id)}
        >
          Take in hand
        </button>
      )}
      <VirtualSwitches board={board} />
      {state.who && (
        <dl class="facts">
          <dt>Runs</dt>
          <dd>{tableWords(state.running)}</dd>
          <dt>Starts with</dt>
          <dd>{tableWords(state.kept)}</dd>
          <dt>Chip</dt>
          <dd>{state.who.chip === 'atmega2560' ? 'ATmega2560' : 'ATmega328P'}</dd>
          <dt>Firmware</dt>
          <dd>
            {state.who.firmware}, identity {state.who.identity}
          </dd>
          <dt>Last start</dt>
          <dd>{causeWords(state.resetCause)}</dd>
          {state.supplyMillivolts !== null && (
            <>
              <dt>Supply</dt>
              <dd>{(state.supplyMillivolts / 1000).toFixed(2)} V</dd>
            </>
          )}
        </dl>
      )}
      <Ports board={board} />
    </article>
  );
}
