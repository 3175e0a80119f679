import { useSignal } from '@preact/signals';
import { outputName } from '../../shared/layout/wiring/numbers.ts';
import type { Wired, Wiring } from '../model/wiring.ts';
import { chainWay, largerWay, layOut, sharingWays, type WayOut } from './what-if.ts';
import { counted } from './words.ts';

interface Props {
  readonly wiring: Wiring;
  readonly wired: Wired;
}

/** Laying out anew, with what it moves; and what helps when outputs run out, with what it brings and costs. */
export function OutputsPart({ wiring, wired }: Props) {
  return (
    <>
      <LayOut wiring={wiring} wired={wired} />
      <section class="ways" aria-label="When outputs run out">
        <h3>When outputs run out</h3>
        {sharingWays(wired).map((way) => (
          <Way key={way.id} way={way} wiring={wiring} />
        ))}
        {sharingWays(wired).length === 0 && <p>Heads that always show the same share their outputs already.</p>}
        <ChainWay wiring={wiring} wired={wired} />
        {[largerWay(wired)].map((way) => way && <Way key={way.id} way={way} wiring={wiring} />)}
      </section>
    </>
  );
}

/** Up to so many lamps are listed at once. */
const SHORT = 12;

function LayOut({ wiring, wired }: Props) {
  const { done, moves, problem } = layOut(wired);
  const name = (output: number | null): string => (output === null ? 'none' : outputName(wired.board, output));
  return (
    <section class="lay-out" aria-label="Laid out by itself">
      <h3>Laid out by itself</h3>
      <p>
        Lamps of a site side by side, in the order of their heads; plain pins first, analogue and bus pins and D13 last.
        Inputs stay.
      </p>
      {problem !== null && <p class="new-site-note">{problem}</p>}
      {done && moves.length === 0 && <p>The outputs are in this order already.</p>}
      {done && moves.length > 0 && (
        <>
          <details open={moves.length <= SHORT}>
            <summary>{counted(moves.length, 'lamp')} would move; soldered wires have to be moved, too.</summary>
            <ul class="moves">
              {moves.map(({ lamp, to }) => (
                <li key={lamp.path}>
                  {lamp.name}: {name(lamp.output)} to {name(to)}
                </li>
              ))}
            </ul>
          </details>
          <button type="button" class="button" onClick={() => void wiring.apply(done)}>
            Lay out {counted(moves.length, 'lamp')} anew
          </button>
        </>
      )}
    </section>
  );
}

function Way({ way, wiring }: { readonly way: WayOut; readonly wiring: Wiring }) {
  return (
    <article class="way" aria-label={way.button}>
      <p>
        {way.brings} {way.costs}
      </p>
      <button type="button" class="button" onClick={() => void wiring.apply(way.done)}>
        {way.button}
      </button>
    </article>
  );
}

/** Which sites go to the chain is chosen first. */
function ChainWay({ wiring, wired }: Props) {
  const { layout, board, lamps } = wired;
  const sites = layout.sites
    .filter((site) => site.board === board.id)
    .map(({ id, name }) => ({ id, name, count: lamps.filter((it) => it.site === id && isOnPin(it.output)).length }))
    .filter(({ count }) => count > 0);
  const chosen = useSignal<readonly string[]>([]);
  const known = chosen.value.filter((id) => sites.some((site) => site.id === id));
  const way = known.length === 0 ? null : chainWay(wired, known);
  return (
    <fieldset class="way" aria-label="Chain of shift registers">
      <p>A chain of shift registers (74HC595) gives eight outputs a chip for three or four pins. To it would go:</p>
      {sites.map(({ id, name, count }) => (
        <label key={id} class="field check">
          <input
            type="checkbox"
            checked={known.includes(id)}
            onChange={(event) => {
              chosen.value = event.currentTarget.checked ? [...known, id] : known.filter((it) => it !== id);
            }}
          />
          {name}, {counted(count, 'lamp')}
        </label>
      ))}
      {typeof way === 'string' && <p class="new-site-note">{way}</p>}
      {way !== null && typeof way !== 'string' && <Way way={way} wiring={wiring} />}
    </fieldset>
  );
}

const isOnPin = (output: number | null): boolean => output === null || output < 128;
