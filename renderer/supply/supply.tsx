import { useSignal } from '@preact/signals';
import { useEffect, useMemo } from 'preact/hooks';
import type { BoardPower } from '../../shared/layout/electrics.ts';
import { setBoardPower } from '../../shared/layout/wiring/details.ts';
import { ProblemText } from '../board/problem.tsx';
import type { BoardModel } from '../model/board.ts';
import { usePanel } from '../model/context.ts';
import type { Wired, Wiring } from '../model/wiring.ts';
import { Choice } from '../wiring/choice.tsx';
import { FigureField } from '../wiring/figure-field.tsx';
import { Permanent } from './permanent.tsx';
import { readMeter, SupplyWatch, voltsText } from './reading.ts';

/** The board is asked so often while somebody looks, ms. */
const EVERY = 2000;

interface Props {
  readonly wiring: Wiring;
  readonly wired: Wired;
}

/** What feeds the board: planned, and as the board measures it. */
export function SupplyPart({ wiring, wired }: Props) {
  const { model } = usePanel();
  const { layout, board } = wired;
  const power = board.power ?? {};
  const set = (change: { [K in keyof BoardPower]: BoardPower[K] | undefined }): void => {
    void wiring.apply(setBoardPower(layout, board.id, { ...power, ...change }));
  };
  return (
    <div class="supply">
      <h3>Supply of {board.name}</h3>
      <Choice
        label="Fed from"
        value={power.from ?? 'usb'}
        choices={[
          ['usb', 'USB'],
          ['external', 'a supply of its own'],
        ]}
        onChoose={(from) => set({ from: from === 'usb' ? undefined : from })}
      />
      <FigureField
        label="5 V line"
        unit="V"
        quantity="volts"
        value={power.volts}
        usual="5"
        onSet={(volts) => set({ volts })}
      />
      <FigureField
        label="It gives at most"
        unit="mA"
        quantity="milliamps"
        value={power.milliamps}
        usual={power.from === 'external' ? 'not known' : '500'}
        onSet={(milliamps) => set({ milliamps })}
      />
      <Measured key={board.id} board={model.board(board.id)} />
      <Permanent />
    </div>
  );
}

/** What the board says of it now. */
function Measured({ board }: { readonly board: BoardModel }) {
  const { model } = usePanel();
  const watch = useMemo(() => new SupplyWatch(board.id, (name, args) => model.call(name, args)), [board, model]);
  const isReady = board.state.value.link === 'ready';
  useEffect(() => {
    if (!isReady) return;
    void watch.read();
    const timer = setInterval(() => void watch.read(), EVERY);
    return () => clearInterval(timer);
  }, [isReady, watch]);
  const reading = watch.reading.value;
  if (!isReady) return <p>Connect the board to see what it measures of its supply.</p>;
  return (
    <section class="measured" aria-label="Measured by the board">
      {watch.problem.value && <ProblemText problem={watch.problem.value} />}
      {reading && (
        <>
          <p class="supply-now">{voltsText(reading.millivolts)}</p>
          <p>
            Lowest while you looked: {voltsText(watch.span.value?.least ?? reading.least)}.{' '}
            {reading.reference === null
              ? 'Not calibrated: the true value may be 10 % off, rises and falls are right.'
              : 'Calibrated with a meter.'}
          </p>
          <SagWarning watch={watch} />
          <Calibrate watch={watch} isCalibrated={reading.reference !== null} />
        </>
      )}
    </section>
  );
}

function SagWarning({ watch }: { readonly watch: SupplyWatch }) {
  const { sag } = watch;
  if (sag === null) return null;
  return (
    <p class="new-site-note" role="status">
      <b>The supply fell by {Math.round(sag * 100)} %.</b> With many lamps lit the cable, the USB socket or the supply
      is too weak. Use a shorter or thicker cable, or a supply that gives more current.
    </p>
  );
}

function Calibrate({ watch, isCalibrated }: { readonly watch: SupplyWatch; readonly isCalibrated: boolean }) {
  const typed = useSignal('');
  const said = useSignal('');
  const millivolts = readMeter(typed.value);
  const calibrate = async (): Promise<void> => {
    if (millivolts === null) {
      said.value = 'Write what the meter shows, between 3.00 and 5.50 V.';
      return;
    }
    const isDone = await watch.read(millivolts);
    said.value = isDone ? 'Calibrated: the board remembers it.' : '';
    if (isDone) typed.value = '';
  };
  return (
    <details>
      <summary>{isCalibrated ? 'Calibrate again with a meter' : 'Calibrate with a meter'}</summary>
      <ol class="steps">
        <li>
          Set the meter to volts, direct current, range 20 V or automatic. Leads in the sockets for volts, never for
          amps.
        </li>
        <li>
          Hold black on GND and red on the 5 V pin, and nothing else. A tip that slips between two pins shorts the
          supply: hold one with a clip if you can.
        </li>
        <li>Wait until the meter stands still, with as many lamps lit as usual. Write down what it shows.</li>
      </ol>
      <form
        class="row"
        onSubmit={(event) => {
          event.preventDefault();
          void calibrate();
        }}
      >
        <label class="field">
          The meter shows
          <input
            class="remark meter"
            inputMode="decimal"
            autoComplete="off"
            placeholder="5.02"
            value={typed.value}
            onInput={(event) => {
              typed.value = event.currentTarget.value;
            }}
          />
          V
        </label>
        <button type="submit" class="button" aria-disabled={millivolts === null}>
          Calibrate
        </button>
      </form>
      <p aria-live="polite">{said.value}</p>
    </details>
  );
}
