import { usePanel } from '../model/context.ts';
import type { OpenSite } from '../model/document.ts';

/**
 * Buttons and detectors of the site, pressed from here for as long as the mouse
 * or a key is down; or held down, as by a train that stands on its detector.
 */
export function Inputs({ site }: { readonly site: OpenSite }) {
  const { model } = usePanel();
  const board = model.open.value.boards.find(({ id }) => id === site.board);
  const inputs = [...new Set(site.binding.inputs.filter((input) => input !== null))];
  if (!board || inputs.length === 0) return null;
  return (
    <fieldset class="inputs" aria-label="Buttons and detectors">
      {inputs.map((input) => (
        <OneInput
          key={`${site.board} ${input}`}
          board={site.board}
          input={input}
          name={board.table.inputs[input]?.name ?? `Input ${input + 1}`}
        />
      ))}
    </fieldset>
  );
}

interface Props {
  readonly board: string;
  /** Number in the board's table. */
  readonly input: number;
  readonly name: string;
}

export function OneInput({ board, input, name }: Props) {
  const { model } = usePanel();
  const held = model.board(board);
  const isDown = held.down.value.has(input);
  const isReady = held.runsLayout.value;
  const press = (as: 'on' | 'auto'): void => {
    if (isReady) void model.ask('press', { board, input, as });
  };
  const release = (): void => {
    // What is held down stays so when it is pressed in between.
    if (!held.down.peek().has(input)) press('auto');
  };
  return (
    <div class="input">
      <button
        type="button"
        class="button"
        aria-disabled={!isReady}
        onPointerDown={(event) => {
          event.currentTarget.setPointerCapture(event.pointerId);
          press('on');
        }}
        onPointerUp={release}
        onPointerCancel={release}
        onKeyDown={(event) => {
          if (!event.repeat && (event.key === ' ' || event.key === 'Enter')) press('on');
        }}
        onKeyUp={(event) => {
          if (event.key === ' ' || event.key === 'Enter') release();
        }}
      >
        Press: {name}
      </button>
      <button
        type="button"
        class="button"
        aria-disabled={!isReady}
        aria-pressed={isDown}
        aria-label={`Hold down: ${name}`}
        title="Stays pressed until it is let go, as by a train that stands there."
        onClick={() => {
          if (!isReady) return;
          held.holdDown(input, !isDown);
          press(isDown ? 'auto' : 'on');
        }}
      >
        {isDown ? 'Let go' : 'Hold down'}
      </button>
    </div>
  );
}
