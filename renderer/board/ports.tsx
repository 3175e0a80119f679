import type { PortInfo } from '../../shared/workbench/contract.ts';
import type { BoardModel } from '../model/board.ts';
import { usePanel } from '../model/context.ts';

/** Where the board may be: its own port first, then likely ones. */
export function Ports({ board }: { readonly board: BoardModel }) {
  const { model } = usePanel();
  const state = board.state.value;
  const rank = ({ board: holder, likely, virtual }: PortInfo): number =>
    holder === board.id ? 0 : likely ? 1 : virtual ? 2 : 3;
  const ports = [...model.ports.value].sort((a, b) => rank(a) - rank(b));
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
                <span class="port-label">{port.label.charAt(0).toUpperCase() + port.label.slice(1)}</span>
                <span class="port-path">
                  {port.virtual ? 'inside this program' : port.path}
                  {!port.likely && !port.virtual && ', probably no board'}
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
