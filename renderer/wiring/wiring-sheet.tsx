import { useMemo } from 'preact/hooks';
import { BoardSwitch } from '../board/board-switch.tsx';
import { CommandButton } from '../commands/button.tsx';
import { usePanel } from '../model/context.ts';
import { type Part, type Wired, Wiring } from '../model/wiring.ts';
import { SupplyPart } from '../supply/supply.tsx';
import { Currents } from './currents.tsx';
import { LampDetails } from './lamp-details.tsx';
import { LampList } from './lamp-list.tsx';
import { OutputsPart } from './outputs-part.tsx';
import { PinBoard } from './pin-board.tsx';
import { UsualLamps } from './usual-lamps.tsx';
import { counted } from './words.ts';

/** Which wire goes where: the boards with their pins, every lamp with output, wire, resistor and current. */
export function WiringSheet() {
  const { model } = usePanel();
  const wiring = useMemo(() => new Wiring(model), [model]);
  const wired = wiring.wired.value;
  if (!wired) return <p>Open a layout first: its boards and lamps are wired here.</p>;
  return <OneBoard key={wired.board.id} wiring={wiring} wired={wired} />;
}

const PARTS: readonly (readonly [Part, string])[] = [
  ['lamp', 'Lamp'],
  ['currents', 'Currents'],
  ['outputs', 'Outputs'],
  ['supply', 'Supply'],
];

function OneBoard({ wiring, wired }: { readonly wiring: Wiring; readonly wired: Wired }) {
  const { chosen, part } = wiring;
  const lamp = wiring.lamp(chosen.value ?? '') ?? null;
  const free = wired.outputs.filter(({ use }) => use.is === 'free').length;
  return (
    <div class="wiring">
      <div class="wiring-main">
        <div class="wiring-head">
          <div class="row">
            <BoardSwitch boards={wired.layout.boards} chosen={wiring.board.value} choose={(id) => wiring.take(id)} />
            <p class="wiring-count">
              {counted(wired.lamps.length, 'lamp')}, {free === 0 ? 'no output' : counted(free, 'output')} free.
            </p>
            <OldOutputs board={wired.board.id} />
            <CommandButton id="lamp-check" />
            <CommandButton id="wiring-sheet" />
          </div>
          <p class="wiring-said" aria-live="polite">
            {wiring.said.value || 'Drag a lamp to another output, or press Enter on it and use the arrow keys.'}
          </p>
        </div>
        <PinBoard wiring={wiring} wired={wired} />
        {wiring.refusal.value.map((finding) => (
          <p key={finding.code} class="new-site-note" role="alert">
            <b>{finding.what}</b> {finding.cure}
          </p>
        ))}
        <LampList wiring={wiring} wired={wired} />
      </div>
      <div class="wiring-side">
        <fieldset class="row parts" aria-label="About">
          {PARTS.map(([it, words]) => (
            <button
              key={it}
              type="button"
              class="tab"
              aria-pressed={part.value === it}
              onClick={() => {
                part.value = it;
              }}
            >
              {words}
            </button>
          ))}
        </fieldset>
        {part.value === 'lamp' && !lamp && (
          <>
            <p>Choose a lamp, on the board or in the list.</p>
            <UsualLamps wiring={wiring} wired={wired} />
          </>
        )}
        {part.value === 'lamp' && lamp && <LampDetails key={lamp.path} wiring={wiring} wired={wired} lamp={lamp} />}
        {part.value === 'currents' && <Currents wiring={wiring} wired={wired} />}
        {part.value === 'supply' && <SupplyPart wiring={wiring} wired={wired} />}
        {part.value === 'outputs' && <OutputsPart wiring={wiring} wired={wired} />}
      </div>
    </div>
  );
}

/** The board goes on with what it was sent before: its wires are on other outputs then. */
function OldOutputs({ board: id }: { readonly board: string }) {
  const { model } = usePanel();
  const board = model.board(id);
  const { link, running } = board.state.value;
  if (link !== 'ready' || running !== 'other') return null;
  return (
    <>
      <p>The board still runs the old outputs.</p>
      <CommandButton id="send" about={{ board }} />
    </>
  );
}
