import { branchesOf } from '../../shared/electrics/lamp-circuit.ts';
import type { Load } from '../../shared/electrics/model.ts';
import { branchFigures, loadCurrents } from '../../shared/electrics/resistors.ts';
import { wireOf } from '../../shared/electrics/usual.ts';
import type { LampElectrics, WireColour } from '../../shared/layout/electrics.ts';
import { likeThis, setCircuit, setPolarity, setSource, wireColour } from '../../shared/layout/wiring/details.ts';
import type { LampPlace } from '../../shared/layout/wiring/lamps.ts';
import { outputName } from '../../shared/layout/wiring/numbers.ts';
import type { Wired, Wiring } from '../model/wiring.ts';
import { Choice } from './choice.tsx';
import { FigureField } from './figure-field.tsx';
import { WIRE_COLOURS } from './lamp-list.tsx';
import { Rings } from './rings.tsx';
import { counted, currentText, resistorWords } from './words.ts';

interface Props {
  readonly wiring: Wiring;
  readonly wired: Wired;
  readonly lamp: LampPlace;
}

/** How the lamp at hand is made, wired and fed. Every change is one step of undo. */
export function LampDetails({ wiring, wired, lamp }: Props) {
  const load = wired.loads.get(lamp.path);
  const { layout, board } = wired;
  const told = lamp.lamp.electrics ?? {};
  const set = (change: { [K in keyof LampElectrics]?: LampElectrics[K] | undefined }): void => {
    void wiring.apply(setCircuit(layout, lamp.path, { ...told, ...change }));
  };
  return (
    <div class="lamp-details">
      <h3>{lamp.name}</h3>
      {load && <WhatFlows load={load} />}
      <div class="row">
        <button type="button" class="button" onClick={(event) => pickUp(wiring, lamp, event.currentTarget)}>
          {lamp.output === null ? 'Choose its output' : `Move it from ${outputName(board, lamp.output)}`}
        </button>
      </div>
      <Choice
        label="Wire"
        value={lamp.lamp.wire ?? 'usual'}
        choices={wireChoices(lamp, load)}
        onChoose={(colour) => void wiring.apply(wireColour(layout, lamp.path, colour === 'usual' ? undefined : colour))}
      />
      <Choice
        label="Light"
        value={lamp.lamp.source ?? 'led'}
        choices={[
          ['led', 'LED'],
          ['smallFilament', 'small filament lamp'],
          ['largeFilament', 'large filament lamp'],
        ]}
        onChoose={(source) => void wiring.apply(setSource(layout, lamp.path, source))}
      />
      <Choice
        label="Common wire"
        value={lamp.lamp.activeLow ? 'low' : 'high'}
        choices={[
          ['high', 'cathode: lit when high'],
          ['low', 'anode: lit when low'],
        ]}
        onChoose={(level) => void wiring.apply(setPolarity(layout, lamp.path, level === 'low'))}
      />
      <Choice
        label="Switched by"
        value={told.driver ?? 'direct'}
        choices={[
          ['direct', 'the output itself'],
          ['transistor', 'a transistor behind it'],
          ['power-register', 'a power shift register'],
        ]}
        onChoose={(driver) => set({ driver: driver === 'direct' ? undefined : driver })}
      />
      <Figures told={told} load={load} set={set} />
      <Likewise wiring={wiring} wired={wired} lamp={lamp} />
    </div>
  );
}

type Change = { [K in keyof LampElectrics]?: LampElectrics[K] | undefined };

/** Picked up with a button: the keyboard goes to the slot that it comes from. */
function pickUp(wiring: Wiring, lamp: LampPlace, button: HTMLElement): void {
  wiring.pickUp(lamp.path);
  const board = button.closest('.wiring')?.querySelector('.pin-board');
  const from = board?.querySelector<HTMLElement>(`[data-output="${lamp.output}"]`);
  (from ?? board?.querySelector<HTMLElement>('.slot.free, .slot.lamp'))?.focus();
}

function wireChoices(lamp: LampPlace, load: Load | undefined): (readonly [WireColour | 'usual', string])[] {
  const { wire: _, ...plain } = lamp.lamp;
  const usual = wireOf(plain, load?.colour ?? '', lamp.path);
  return [['usual', `${usual}, as usual`], ...WIRE_COLOURS.map((colour) => [colour, colour] as const)];
}

/** Resistor with its rings, and what flows through it. */
function WhatFlows({ load }: { readonly load: Load }) {
  const { circuit, heads } = load;
  const { milliamps, rating } = branchFigures(circuit);
  const currents = loadCurrents(load);
  const { branches } = branchesOf(circuit);
  const all = branches * heads.length;
  return (
    <dl class="facts">
      <dt>Resistor</dt>
      <dd>
        {typeof circuit.resistor === 'number' && <Rings ohms={circuit.resistor} />}
        {resistorWords(load)}
        {typeof circuit.resistor === 'number' && all > 1 && `, ${all} of them`}
        {rating !== null && `; ${rating} W is enough`}
      </dd>
      <dt>Current</dt>
      <dd>
        {currentText(milliamps)} each{all > 1 && `, ${currentText(currents.lamps)} together`}
        {currents.output !== currents.lamps && `; ${currentText(currents.output)} through the output`}
      </dd>
      {heads.length > 1 && (
        <>
          <dt>Heads</dt>
          <dd>{heads.map(({ name }) => name).join('; ')}</dd>
        </>
      )}
    </dl>
  );
}

function Figures({ told, load, set }: { told: LampElectrics; load: Load | undefined; set(change: Change): void }) {
  const circuit = load?.circuit;
  const usual = (value: number | undefined): string => (value === undefined ? '' : String(value));
  const resistor = told.resistor === 'fitted' ? 'fitted' : told.resistor === undefined ? 'worked-out' : 'own';
  return (
    <>
      <FigureField
        label="Fed with"
        unit="V"
        quantity="volts"
        value={told.volts}
        usual={usual(circuit?.volts)}
        onSet={(volts) => set({ volts })}
      />
      <FigureField
        label="Forward voltage"
        unit="V"
        quantity="volts"
        value={told.forward}
        usual={usual(circuit?.forward)}
        onSet={(forward) => set({ forward })}
      />
      <FigureField
        label="Wanted current"
        unit="mA"
        quantity="milliamps"
        value={told.milliamps}
        usual={usual(circuit?.milliamps)}
        onSet={(milliamps) => set({ milliamps })}
      />
      <Choice
        label="LEDs in a head"
        value={String(told.count ?? 1)}
        choices={COUNTS}
        onChoose={(count) => set({ count: count === '1' ? undefined : Number(count) })}
      />
      {(told.count ?? 1) > 1 && (
        <Choice
          label="Wired"
          value={told.wired ?? 'parallel'}
          choices={[
            ['parallel', 'side by side, each with its resistor'],
            ['series', 'one after the other, one resistor'],
          ]}
          onChoose={(wired) => set({ wired: wired === 'parallel' ? undefined : wired })}
        />
      )}
      <Choice
        label="Resistor"
        value={resistor}
        choices={[
          ['worked-out', 'as worked out'],
          ['fitted', 'in the lamp already'],
          ['own', 'one that is there'],
        ]}
        onChoose={(it) =>
          set({
            resistor:
              it === 'worked-out'
                ? undefined
                : it === 'fitted'
                  ? 'fitted'
                  : typeof circuit?.resistor === 'number'
                    ? circuit.resistor
                    : 1000,
          })
        }
      />
      {resistor === 'own' && (
        <FigureField
          label="It has"
          unit="Ω"
          quantity="ohms"
          value={typeof told.resistor === 'number' ? told.resistor : undefined}
          usual=""
          onSet={(ohms) => set({ resistor: ohms })}
        />
      )}
    </>
  );
}

const COUNTS = Array.from({ length: 60 }, (_, index) => [String(index + 1), String(index + 1)] as const);

/** The same for other lamps of this colour, on this site and on this board. */
function Likewise({ wiring, wired, lamp }: Props) {
  const { layout, loads } = wired;
  const colour = loads.get(lamp.path)?.colour;
  if (!colour) return null;
  const others = wired.lamps.filter((it) => it.path !== lamp.path && loads.get(it.path)?.colour === colour);
  const near = others.filter(({ site }) => site === lamp.site);
  const groups = [
    { where: 'on this site', lamps: near },
    { where: 'on this board', lamps: others },
  ].filter((group, index, all) => group.lamps.length > 0 && group.lamps.length !== all[index - 1]?.lamps.length);
  return (
    <div class="row">
      {groups.map((group) => (
        <button
          key={group.where}
          type="button"
          class="button"
          onClick={() => {
            const paths = group.lamps.map(({ path }) => path);
            void wiring.apply(likeThis(layout, lamp.path, paths));
          }}
        >
          Same for {counted(group.lamps.length, `other ${colour} lamp`)} {group.where}
        </button>
      ))}
    </div>
  );
}
