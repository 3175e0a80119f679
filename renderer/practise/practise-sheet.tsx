import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { faultText } from '../../shared/electrics/circuit/fault-words.ts';
import type { Load, WiringFault } from '../../shared/electrics/model.ts';
import { inCheckOrder } from '../../shared/lampcheck/lamps.ts';
import { colourOf } from '../check/words.ts';
import { CommandButton } from '../commands/button.tsx';
import type { BoardModel } from '../model/board.ts';
import { usePanel } from '../model/context.ts';
import { type FaultKind, fits, KINDS, makeFault, surprise } from './faults.ts';
import { GlowPicture } from './glow-picture.tsx';

/** Wiring faults on the virtual board: chosen, or hidden until they were found. */
export function PractiseSheet() {
  const { model } = usePanel();
  const virtual = model.boards.value.filter(({ state }) => state.value.virtual);
  const chosen = useSignal('');
  const board = virtual.find(({ id }) => id === chosen.value) ?? virtual[0];
  if (!board) return <p>Connect the virtual board first: faults can be set there only.</p>;
  return (
    <div class="check-part">
      {virtual.length > 1 && (
        <label class="field">
          Board
          <select
            value={board.id}
            onChange={(event) => {
              chosen.value = event.currentTarget.value;
            }}
          >
            {virtual.map(({ id }) => (
              <option key={id} value={id}>
                {model.boardName(id)}
              </option>
            ))}
          </select>
        </label>
      )}
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

function OneFault({ loads, onSet }: { readonly loads: readonly Load[]; readonly onSet: (fault: WiringFault) => void }) {
  const kind = useSignal<FaultKind>('swapped');
  const lamp = useSignal(0);
  const other = useSignal(1);
  const isPair = KINDS.find((it) => it.kind === kind.value)?.pair === true;
  const load = loads.find((it) => it.lamp === lamp.value);
  const canSet = load !== undefined && fits(kind.value, load) && (!isPair || other.value !== lamp.value);
  useEffect(() => {
    if (!load && loads[0]) lamp.value = loads[0].lamp;
  }, [load, loads]);
  return (
    <fieldset class="row">
      <legend>Or one of your choice</legend>
      <label class="field">
        Fault
        <select
          aria-label="Fault"
          value={kind.value}
          onChange={(event) => {
            const chosen = KINDS.find((it) => it.kind === event.currentTarget.value);
            if (chosen) kind.value = chosen.kind;
          }}
        >
          {KINDS.map((it) => (
            <option key={it.kind} value={it.kind}>
              {it.label}
            </option>
          ))}
        </select>
      </label>
      <LampChoice label="Lamp" loads={loads} of={lamp} />
      {isPair && <LampChoice label="with" loads={loads} of={other} />}
      <button
        type="button"
        class="button"
        aria-disabled={!canSet}
        onClick={() => canSet && onSet(makeFault(kind.value, lamp.value, other.value))}
      >
        Set this fault
      </button>
    </fieldset>
  );
}

interface LampChoiceProps {
  readonly label: string;
  readonly loads: readonly Load[];
  readonly of: { value: number };
}

function LampChoice({ label, loads, of }: LampChoiceProps) {
  return (
    <label class="field">
      {label}
      <select
        aria-label={label}
        value={String(of.value)}
        onChange={(event) => {
          of.value = Number(event.currentTarget.value);
        }}
      >
        {loads.map((load) => (
          <option key={load.lamp} value={String(load.lamp)}>
            {load.outputName}: {load.siteName}, {load.label}, {colourOf(load)}
          </option>
        ))}
      </select>
    </label>
  );
}
