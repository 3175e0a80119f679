import type { BoardModel } from '../model/board.ts';
import { usePanel } from '../model/context.ts';

/** Where the board may be: likely ports first. */
export function Ports({ board }: { readonly board: BoardModel }) {
  const { model } = usePanel();
  const state = board.state.value;
  const ports = [...model.ports.value].sort((a, b) => Number(b.likely) - Number(a.likely));
  const names = new Map(model.open.value.layout?.boards.map(({ id, name }) => [id, name]));
  return (
    <div class="ports">
      <div class="row">
        <h3>Ports</h3>
        <button
          type="button"
          class="button"
          onClick={async () => {
            const outcome = await model.ask('listPorts', {});
            if (outcome.ok) model.ports.value = outcome.value;
          }}
        >
          Look again
        </button>
      </div>
      {ports.length === 0 && <p>No port found. Plug a board in; it shows up here by itself.</p>}
      <ul>
        {ports.map((port) => {
          const isMine = port.board === board.id && state.link !== 'off';
          const other = port.board !== null && port.board !== board.id ? names.get(port.board) : undefined;
          return (
            <li key={port.path} class={isMine ? 'port mine' : 'port'}>
              <span class="port-words">
                <span class="port-label">{port.label}</span>
                <span class="port-path">
                  {port.virtual ? 'inside this program' : port.path}
                  {!port.likely && ', probably no board'}
                  {other && `, held by ${other}`}
                </span>
              </span>
              {isMine ? (
                <button type="button" class="button" onClick={() => model.ask('disconnect', { board: board.id })}>
                  Disconnect
                </button>
              ) : (
                <button
                  type="button"
                  class="button"
                  disabled={other !== undefined}
                  aria-label={`Connect ${port.label}`}
                  onClick={() => model.ask('connect', { board: board.id, port: port.path })}
                >
                  Connect
                </button>
              )}
            </li>
          );
        })}
      </ul>
    </div>
  );
}
