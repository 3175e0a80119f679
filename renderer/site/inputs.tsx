import { usePanel } from '../model/context.ts';
import type { OpenSite } from '../model/document.ts';

/** Buttons and detectors of the site, pressed from here for as long as the mouse or a key is down. */
export function Inputs({ site }: { readonly site: OpenSite }) {
  const { model } = usePanel();
  const board = model.open.value.boards.find(({ id }) => id === site.board);
  const inputs = [...new Set(site.binding.inputs.filter((input) => input !== null))];
  if (!board || inputs.length === 0) return null;
  const press = (input: number, as: 'on' | 'auto'): void => {
    void model.ask('press', { board: site.board, input, as });
  };
  return (
    <fieldset class="inputs" aria-label="Buttons and detectors">
      {inputs.map((input) => (
        <button
          key={input}
          type="button"
          class="button"
          aria-disabled={!model.board(site.board).runsLayout.value}
          onPointerDown={() => press(input, 'on')}
          onPointerUp={() => press(input, 'auto')}
          onPointerCancel={() => press(input, 'auto')}
          onKeyDown={(event) => {
            if (!event.repeat && (event.key === ' ' || event.key === 'Enter')) press(input, 'on');
          }}
          onKeyUp={(event) => {
            if (event.key === ' ' || event.key === 'Enter') press(input, 'auto');
          }}
        >
          Press: {board.table.inputs[input]?.name}
        </button>
      ))}
    </fieldset>
  );
}
