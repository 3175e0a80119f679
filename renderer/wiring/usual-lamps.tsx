import { FORWARD, isColour, LED_MILLIAMPS } from '../../shared/electrics/usual.ts';
import type { Colour } from '../../shared/layout/outputs.ts';
import { setUsual } from '../../shared/layout/wiring/details.ts';
import type { Wired, Wiring } from '../model/wiring.ts';
import { FigureField } from './figure-field.tsx';

interface Props {
  readonly wiring: Wiring;
  readonly wired: Wired;
}

/** What the LEDs of each colour are taken for, where a lamp says nothing of its own; for the whole layout. */
export function UsualLamps({ wiring, wired }: Props) {
  const colours = [...new Set([...wired.loads.values()].map(({ colour }) => colour))].filter(isColour);
  if (colours.length === 0) return null;
  return (
    <div class="lamp-details">
      <h3>Usual LEDs of this layout</h3>
      <p>From the data sheet of those in your drawer. A lamp may differ: choose it on the board or in the list.</p>
      {colours.map((colour) => (
        <OneColour key={colour} colour={colour} wiring={wiring} wired={wired} />
      ))}
    </div>
  );
}

function OneColour({ colour, wiring, wired }: Props & { readonly colour: Colour }) {
  const { layout } = wired;
  const { forward, milliamps } = layout.electrics?.usual?.[colour] ?? {};
  return (
    <fieldset class="usual" aria-label={`Usual ${colour} LED`}>
      <FigureField
        label={`${colour}: forward`}
        unit="V"
        quantity="volts"
        value={forward}
        usual={String(FORWARD[colour].value)}
        onSet={(volts) => void wiring.apply(setUsual(layout, colour, { forward: volts, milliamps }))}
      />
      <FigureField
        label={`${colour}: current`}
        unit="mA"
        quantity="milliamps"
        value={milliamps}
        usual={String(LED_MILLIAMPS.value)}
        onSet={(wanted) => void wiring.apply(setUsual(layout, colour, { forward, milliamps: wanted }))}
      />
    </fieldset>
  );
}
