import { branchesOf } from '../../shared/electrics/lamp-circuit.ts';
import { isWire } from '../../shared/electrics/loads.ts';
import type { Load } from '../../shared/electrics/model.ts';
import { baseFor } from '../../shared/electrics/parts.ts';
import { SMALL_TRANSISTOR } from '../../shared/electrics/profiles/limits.ts';
import { branchFigures, leastMilliamps, loadCurrents } from '../../shared/electrics/resistors.ts';
import { BOARD_VOLTS } from '../../shared/electrics/usual.ts';
import type { Wired } from '../model/wiring.ts';
import { Rings } from './rings.tsx';
import { currentText, resistorWords } from './words.ts';

/** Resistor with its rings, and what flows through it. */
export function WhatFlows({ load, wired }: { readonly load: Load; readonly wired: Wired }) {
  const { circuit, heads } = load;
  if (isWire(load)) return <p>A wire to another board: no lamp hangs on it.</p>;
  const { milliamps, rating } = branchFigures(circuit);
  const boardVolts = wired.board.power?.volts ?? BOARD_VOLTS.value;
  const currents = loadCurrents(load, boardVolts);
  const all = branchesOf(circuit).branches * heads.length;
  const base = baseFor(load, wired.layout, boardVolts);
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
        {rangeText(leastMilliamps(load), milliamps)} each
        {all > 1 && `, at most ${currentText(currents.lamps)} together`}
        {currents.output !== currents.lamps && `; ${currentText(currents.output)} through the output`}
      </dd>
      {base && (
        <>
          <dt>Driver</dt>
          <dd>
            {SMALL_TRANSISTOR.part}: emitter to GND, base through <Rings ohms={base.ohms} />
            {resistorWords({ ...load, circuit: { ...circuit, resistor: base.ohms } })}
          </dd>
        </>
      )}
      {heads.length > 1 && (
        <>
          <dt>Heads</dt>
          <dd>{heads.map(({ name }) => name).join('; ')}</dd>
        </>
      )}
    </dl>
  );
}

/** From what an output at the weak end of its data sheet gives to one that drops nothing. */
function rangeText(least: number, most: number): string {
  return most - least < 0.05 ? currentText(most) : `${least.toFixed(1)} to ${currentText(most)}`;
}
