import { useSignal } from '@preact/signals';
import { useRef } from 'preact/hooks';
import type { Output, Use } from '../../shared/layout/wiring/outputs.ts';
import type { Wired, Wiring } from '../model/wiring.ts';
import { onKey, outputIn, startPointer } from './carry.ts';
import { chipRows, pinRows, type Row, type Run, runsOf } from './rows.ts';
import { Slot } from './slot.tsx';
import { SlotMark } from './slot-mark.tsx';
import { counted } from './words.ts';

interface Props {
  readonly wiring: Wiring;
  readonly wired: Wired;
}

const CHIP_NAMES = { atmega328p: 'ATmega328P board', atmega2560: 'ATmega2560 board' } as const;

/** The board with its pins, and the chips of its chain: lamps are carried from slot to slot. */
export function PinBoard({ wiring, wired }: Props) {
  const frame = useRef<HTMLFieldSetElement>(null);
  const entry = useSignal<number | null>(null);
  const { board, outputs } = wired;
  const rows = pinRows(board.chip, outputs);
  const chips = chipRows(outputs);
  const first = outputs.find(({ use }) => use.is === 'lamp' || use.is === 'free')?.output ?? 0;
  const reached = outputs.some(({ output }) => output === entry.value) ? entry.value : first;
  const show = (row: Row) => <SlotRow key={row.name} row={row} wiring={wiring} entry={reached ?? first} />;
  return (
    <fieldset
      ref={frame}
      class={wiring.carried.value ? 'pin-board carrying' : 'pin-board'}
      aria-label={`Outputs of ${board.name}`}
      onPointerDown={(event) => startPointer(wiring, event)}
      onPointerMove={(event) => {
        // Picked up with a button: the pointer shows where it would go before the click.
        if (wiring.carried.peek() && event.buttons === 0) wiring.hover(outputIn(event.target));
      }}
      onFocusIn={(event) => {
        entry.value = outputIn(event.target) ?? entry.value;
      }}
      onClick={(event) => {
        const output = outputIn(event.target);
        if (output === null) return;
        if (wiring.carried.peek()) {
          wiring.hover(output);
          void wiring.putDown();
          return;
        }
        const lamp = wiring.lampOn(output);
        if (lamp) wiring.look(lamp.path);
      }}
      onKeyDown={(event) => {
        if (event.ctrlKey || event.metaKey || event.altKey) return;
        if (!frame.current || !onKey(wiring, frame.current, event)) return;
        event.preventDefault();
        event.stopPropagation();
      }}
    >
      <div class="board-body">
        {rows.slice(0, -1).map(show)}
        <p class="board-name">
          {board.name} <span>{CHIP_NAMES[board.chip]}</span>
        </p>
        {rows.slice(-1).map(show)}
      </div>
      {chips.length > 0 && <div class="board-chain">{chips.map(show)}</div>}
      <Legend outputs={outputs} />
    </fieldset>
  );
}

function SlotRow({ row, wiring, entry }: { readonly row: Row; readonly wiring: Wiring; readonly entry: number }) {
  return (
    <fieldset class="slot-row" aria-label={row.name}>
      {row.name.startsWith('Chip') && <span class="chip-name">{row.name}</span>}
      {runsOf(row.outputs).map((run) => (
        <RunOfSite key={run.outputs[0]?.output} run={run} wiring={wiring} entry={entry} />
      ))}
    </fieldset>
  );
}

function RunOfSite({ run, wiring, entry }: { readonly run: Run; readonly wiring: Wiring; readonly entry: number }) {
  const name = wiring.wired.value?.layout.sites.find(({ id }) => id === run.site)?.name;
  const isAtHand = run.site !== null && wiring.lamp(wiring.chosen.value ?? '')?.site === run.site;
  return (
    <div class={isAtHand ? 'run at-hand' : 'run'}>
      <div class="run-slots">
        {run.outputs.map((output) => (
          <Slot key={output.output} wiring={wiring} output={output} isEntry={output.output === entry} />
        ))}
      </div>
      {name !== undefined && (
        <span class="run-name" title={name} aria-hidden="true">
          {name}
        </span>
      )}
    </div>
  );
}

const USES: readonly (readonly [Use['is'], string, string])[] = [
  ['free', 'free', ''],
  ['lamp', 'lamp', ''],
  ['input', 'input', ''],
  ['chain', 'wire of the chain', 'wires of the chain'],
  ['serial', 'pin of the serial line', 'pins of the serial line'],
];

/** What the shapes mean, with how many of each there are. */
function Legend({ outputs }: { readonly outputs: readonly Output[] }) {
  return (
    <p class="slot-legend">
      {USES.map(([is, one, many]) => {
        const count = outputs.filter(({ use }) => use.is === is).length;
        if (count === 0 && is !== 'free') return null;
        const words =
          is === 'free' ? `${count} free` : many ? `${count} ${count === 1 ? one : many}` : counted(count, one);
        return (
          <span key={is} class={`legend ${is}`}>
            <SlotMark use={is} colour={null} />
            {words}
          </span>
        );
      })}
    </p>
  );
}
