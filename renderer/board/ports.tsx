import { capital } from '../../shared/findings/capital.ts';
import type { PortInfo } from '../../shared/workbench/contract.ts';
import { CommandButton } from '../commands/button.tsx';
import type { BoardModel } from '../model/board.ts';
import { usePanel } from '../model/context.ts';
import { canReplace, firmwareOffer } from '../model/firmware.ts';

/** Where the board may be: its own port first, then likely ones. */
export function Ports({ board }: { readonly board: BoardModel }) {
  const { model } = usePanel();
  const ports = [...model.ports.value].sort((a, b) => rank(a, board.id) - rank(b, board.id));
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
      {!ports.some(({ virtual }) => !virtual) && (
        <p>No serial port found. Plug a board in; it shows up here by itself.</p>
      )}
      <ul>
        {ports.map((port) => (
          <Port key={port.path} board={board} port={port} />
        ))}
      </ul>
    </div>
  );
}

function rank({ board: holder, likely, virtual }: PortInfo, board: string): number {
  if (holder === board) return 0;
  return likely && !virtual ? 1 : virtual ? 2 : 3;
}

function Port({ board, port }: { readonly board: BoardModel; readonly port: PortInfo }) {
  const { model } = usePanel();
  const state = board.state.value;
  const isMine = port.board === board.id && state.link !== 'off';
  const isMet = state.port === port.path;
  const other = port.board !== null && port.board !== board.id ? model.boardName(port.board) : null;
  const about = { board, port: port.path };
  const isWanting = firmwareOffer(state)?.port === port.path;
  return (
    <li class={isMine ? 'port mine' : 'port'} data-likely={port.likely}>
      <span class="port-words">
        <span class="port-label">{capital(port.label)}</span>
        <span class="port-path">
          {port.virtual ? 'inside this program' : port.path}
          {!port.virtual && (port.likely ? ', probably a board' : ', probably no board')}
          {other !== null && `, held by ${other}`}
        </span>
        {isMet && state.openingResets === true && (
          <span class="port-hint">Opening this port restarts the board; Help says how to avoid it.</span>
        )}
      </span>
      <span class="port-buttons">
        {isMine ? (
          <button
            type="button"
            class="button"
            disabled={state.task?.stage !== undefined}
            onClick={() => model.ask('disconnect', { board: board.id })}
          >
            Disconnect
          </button>
        ) : (
          <button
            type="button"
            class="button"
            disabled={other !== null || state.task?.stage !== undefined}
            aria-label={`Connect ${port.label}`}
            onClick={() => model.ask('connect', { board: board.id, port: port.path })}
          >
            Connect
          </button>
        )}
        {isWanting && <CommandButton id="write-firmware" about={about} />}
      </span>
      {canReplace(state, port) && <CommandButton id="replace-board" about={about} class="button replace" />}
    </li>
  );
}
