import type { BoardModel } from '../model/board.ts';
import { usePanel } from '../model/context.ts';
import { SPEEDS, speedName } from './speeds.ts';

/** Switch and speed of the virtual board. A real one has its own plug. */
export function VirtualSwitches({ board }: { readonly board: BoardModel }) {
  const { model } = usePanel();
  const { powered, speed, unkept, master, link } = board.state.value;
  return (
    <div class="switches">
      {powered !== null && (
        <button
          type="button"
          class="button"
          role="switch"
          aria-checked={powered}
          title={unkept ? 'What was not kept is lost.' : 'It starts again with what is kept.'}
          onClick={() => model.ask('power', { board: board.id, on: !powered })}
        >
          {powered ? 'Switch off' : 'Switch on'}
        </button>
      )}
      {speed !== null && (
        <label class="field">
          Speed
          <select
            value={String(speed)}
            onChange={(event) => model.ask('speed', { board: board.id, factor: Number(event.currentTarget.value) })}
          >
            {SPEEDS.map((factor) => (
              <option key={factor} value={String(factor)}>
                {speedName(factor)}
              </option>
            ))}
          </select>
        </label>
      )}
      {link === 'ready' && (
        <label class="field">
          Lamps
          <select
            value={master}
            onChange={(event) => {
              const state = event.currentTarget.value;
              const known = MASTERS.find(([id]) => id === state);
              if (known) void model.ask('master', { board: board.id, state: known[0] });
            }}
          >
            {MASTERS.map(([id, label]) => (
              <option key={id} value={id}>
                {label}
              </option>
            ))}
          </select>
        </label>
      )}
    </div>
  );
}

const MASTERS = [
  ['auto', 'As switched on the layout'],
  ['run', 'Run'],
  ['night', 'Night'],
  ['off', 'All dark'],
  ['safe', 'Safe aspects'],
] as const;
