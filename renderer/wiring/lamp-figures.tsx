import type { Load } from '../../shared/electrics/model.ts';
import type { LampElectrics } from '../../shared/layout/electrics.ts';
import { Choice } from './choice.tsx';
import { FigureField } from './figure-field.tsx';

export type Change = { [K in keyof LampElectrics]?: LampElectrics[K] | undefined };

interface Props {
  readonly told: LampElectrics;
  readonly load: Load | undefined;
  set(change: Change): void;
}

/** The figures of a lamp: what the document says, and in its place what counts where it says nothing. */
export function LampFigures({ told, load, set }: Props) {
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
