import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { Load, WiringFault } from '../../shared/electrics/model.ts';
import { colourOf } from '../check/words.ts';
import { type FaultKind, fits, KINDS, makeFault } from './faults.ts';

/** One fault of one's choice. */
export function OneFault({
  loads,
  onSet,
}: {
  readonly loads: readonly Load[];
  readonly onSet: (fault: WiringFault) => void;
}) {
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
