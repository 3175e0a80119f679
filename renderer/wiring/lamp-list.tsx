import { loadCurrents } from '../../shared/electrics/resistors.ts';
import { WireColour } from '../../shared/layout/electrics.ts';
import type { LampPlace } from '../../shared/layout/wiring/lamps.ts';
import { outputName } from '../../shared/layout/wiring/numbers.ts';
import { usePanel } from '../model/context.ts';
import type { Wired, Wiring } from '../model/wiring.ts';
import { findingsOfLamp } from './findings.ts';
import { Rings } from './rings.tsx';
import { SlotMark } from './slot-mark.tsx';
import { colourOf, currentText, resistorWords, shortName } from './words.ts';

interface Props {
  readonly wiring: Wiring;
  readonly wired: Wired;
}

/** The lamps site by site: output, wire, resistor, current. */
export function LampList({ wiring, wired }: Props) {
  const { layout, lamps } = wired;
  // By place, not by id: a file with mistakes in it may have many sites of one id.
  const groups = layout.sites
    .map(({ name }, at) => ({
      key: `${at}`,
      name,
      lamps: lamps.filter(({ path }) => path.startsWith(`sites[${at}]`)),
    }))
    .concat({ key: 'board', name: 'Of the board', lamps: lamps.filter(({ site }) => site === null) })
    .filter((group) => group.lamps.length > 0);
  return (
    <div class="lamp-list">
      {groups.map((group) => (
        <section key={group.key} aria-label={group.name}>
          <h3>{group.name}</h3>
          <table class="wired-lamps">
            <colgroup>
              <col />
              <col class="of-output" />
              <col class="of-wire" />
              <col class="of-resistor" />
              <col class="of-current" />
            </colgroup>
            <thead class="only-heard">
              <tr>
                <th scope="col">Lamp</th>
                <th scope="col">Output</th>
                <th scope="col">Wire</th>
                <th scope="col">Resistor</th>
                <th scope="col">Current</th>
              </tr>
            </thead>
            <tbody>
              {group.lamps.map((lamp) => (
                <LampRow key={lamp.path} lamp={lamp} wiring={wiring} wired={wired} />
              ))}
            </tbody>
          </table>
        </section>
      ))}
    </div>
  );
}

function LampRow({ lamp, wiring, wired }: Props & { readonly lamp: LampPlace }) {
  const { model } = usePanel();
  const load = wired.loads.get(lamp.path);
  const isChosen = wiring.chosen.value === lamp.path;
  const findings = findingsOfLamp(model.open.value.findings, lamp.path);
  return (
    <>
      <tr class={isChosen ? 'wired-lamp chosen' : 'wired-lamp'} data-lamp-path={lamp.path}>
        <th scope="row">
          <button type="button" class="lamp-choose" aria-pressed={isChosen} onClick={() => wiring.look(lamp.path)}>
            <SlotMark use="lamp" colour={colourOf(lamp, load)} />
            <span>{shortName(lamp, load)}</span>
          </button>
        </th>
        <td class="lamp-output">{lamp.output === null ? 'none' : outputName(wired.board, lamp.output)}</td>
        <td>{load && <Wire colour={load.wire} />}</td>
        <td class="lamp-resistor">
          {load && typeof load.circuit.resistor === 'number' && <Rings ohms={load.circuit.resistor} />}
          {load && <span>{resistorWords(load)}</span>}
        </td>
        <td class="lamp-current">
          {load && currentText(loadCurrents(load).lamps)}
          {load && load.heads.length > 1 && <span class="lamp-heads">{load.heads.length} heads</span>}
        </td>
      </tr>
      {findings.map((finding) => (
        <tr key={finding.code} class="lamp-finding">
          <td colSpan={5}>
            <b>{finding.what}</b> {finding.cure}
          </td>
        </tr>
      ))}
    </>
  );
}

/** A piece of the wire, and the name of its colour. */
export function Wire({ colour }: { readonly colour: WireColour }) {
  return (
    <span class="wire">
      <svg viewBox="0 0 26 10" aria-hidden="true">
        <rect class={`insulation ${colour}`} x={1} y={2} width={24} height={6} rx={3} />
      </svg>
      {colour}
    </span>
  );
}

export const WIRE_COLOURS = WireColour.options;
