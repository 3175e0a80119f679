import { useSignal } from '@preact/signals';
import { faultText } from '../../shared/electrics/circuit/fault-words.ts';
import type { WiringFault } from '../../shared/electrics/model.ts';
import { inCheckOrder } from '../../shared/lampcheck/lamps.ts';
import { BoardSwitch } from '../board/board-switch.tsx';
import { CommandButton } from '../commands/button.tsx';
import type { BoardModel } from '../model/board.ts';
import { usePanel } from '../model/context.ts';
import { surprise } from './faults.ts';
import { GlowPicture } from './glow-picture.tsx';
import { OneFault } from './one-fault.tsx';

/** Wiring faults on the virtual board: chosen, or hidden until they were found. */
export function PractiseSheet() {
  const { model } = usePanel();
  const virtual = model.boards.value.filter(({ state }) => state.value.virtual);
  const chosen = useSignal('');
  const board = virtual.find(({ id }) => id === chosen.value) ?? virtual[0];
  if (!board) return <p>Connect the virtual board first: faults can be set there only.</p>;
  return (
    <div class="check-part">
      <BoardSwitch
        boards={virtual}
        chosen={board.id}
        choose={(id) => {
          chosen.value = id;
        }}
      />
      <Faults key={board.id} board={board} />
      <GlowPicture board={board} />
    </div>
  );
}

function Faults({ board }: { readonly board: BoardModel }) {
  const { model } = usePanel();
  const loads = inCheckOrder(model.check.loads(board.id));
  const faults = board.state.value.wiringFaults ?? [];
  const count = useSignal('3');
  const areShown = useSignal(false);
  const set = (next: readonly WiringFault[]): void =>
    void model.ask('setFaults', { board: board.id, faults: next.map((fault) => ({ ...fault })) as WiringFault[] });
  return (
    <>
      <p>
        Real lamps take harm from some of these; the virtual ones do not. Set faults, then find them with the lamp
        check.
      </p>
      <p class="row">
        <label class="field">
          How many
          <select
            value={count.value}
            onChange={(event) => {
              count.value = event.currentTarget.value;
            }}
          >
            {['1', '2', '3', '5', '8'].map((it) => (
              <option key={it}>{it}</option>
            ))}
          </select>
        </label>
        <button
          type="button"
          class="button strong"
          onClick={() => {
            areShown.value = false;
            set(surprise(loads, Number(count.value), Math.random));
          }}
        >
          Surprise me
        </button>
        <CommandButton id="lamp-check" />
      </p>
      <OneFault loads={loads} onSet={(fault) => set([...faults, fault])} />
      <p class="row" role="status">
        <span>
          {faults.length === 0
            ? 'No faults are set.'
            : `${faults.length === 1 ? 'One fault is' : `${faults.length} faults are`} set.`}
        </span>
        {faults.length > 0 && (
          <>
            <button
              type="button"
              class="button"
              aria-pressed={areShown.value}
              onClick={() => {
                areShown.value = !areShown.value;
              }}
            >
              {areShown.value ? 'Hide them' : 'Tell me what they are'}
            </button>
            <button type="button" class="button" onClick={() => set([])}>
              Mend all
            </button>
          </>
        )}
      </p>
      {areShown.value && (
        <ul class="fault-list">
          {faults.map((fault, at) => (
            <li key={JSON.stringify(fault)} class="row">
              <span>{faultText(fault, loads)}</span>
              <button type="button" class="button" onClick={() => set(faults.filter((_, index) => index !== at))}>
                Mend this one
              </button>
            </li>
          ))}
        </ul>
      )}
    </>
  );
}
