import { inCheckOrder, lampText } from '../../shared/lampcheck/lamps.ts';
import type { VerdictKind } from '../../shared/lampcheck/self-check/verdict.ts';
import { ProblemText } from '../board/problem.tsx';
import { usePanel } from '../model/context.ts';

/** Worst first. */
const KINDS: readonly (readonly [VerdictKind, string])[] = [
  ['short', 'Short'],
  ['noResistor', 'No resistor, or too small a one'],
  ['open', 'Open, or the wrong way round'],
  ['conducts', 'Something conducts: a lamp or a short'],
  ['lamp', 'A lamp conducts'],
  ['notShorted', 'Not shorted'],
  ['cantTell', 'The chip cannot tell'],
];

/** Measures all pins before anything is lit, and says what that proves and what it does not. */
export function SelfCheckPart({ board }: { readonly board: string }) {
  const { model } = usePanel();
  const { selfCheck } = model.check;
  const isReady = model.board(board).runsLayout.value && !model.board(board).state.value.task;
  const progress = selfCheck.progress.value;
  const loads = inCheckOrder(model.check.loads(board));
  const judged = loads.flatMap((load) => {
    const verdict = selfCheck.verdict(board, load);
    return verdict ? [{ load, verdict }] : [];
  });
  return (
    <section class="check-measured" aria-label="Electrical self-check">
      <h3>Measure the pins first</h3>
      <p class="check-note">
        All lamps go dark for a moment, and the chip looks at each pin for less than a thousandth of a second, too short
        to be seen. It finds shorts and open wires on many pins; colours, places and what hangs on shift registers it
        cannot see.
      </p>
      <p class="row">
        <button
          type="button"
          class="button tall"
          aria-disabled={!isReady || progress !== null}
          onClick={() => isReady && selfCheck.run(board)}
        >
          Measure the pins
        </button>
        {progress && (
          <progress
            max={progress.total}
            value={progress.done}
            aria-label={`${progress.done} of ${progress.total} measured`}
          />
        )}
        {judged.length > 0 && !progress && (
          <span role="status">
            {judged.filter(({ verdict }) => verdict.kind !== 'cantTell').length} of {judged.length} judged.
          </span>
        )}
      </p>
      {selfCheck.problem.value && <ProblemText problem={selfCheck.problem.value} />}
      {KINDS.map(([kind, title]) => {
        const own = judged.filter(({ verdict }) => verdict.kind === kind);
        if (own.length === 0) return null;
        return (
          <details key={kind} open={kind === 'short' || kind === 'noResistor' || kind === 'open'}>
            <summary>
              {title}: {own.length}
            </summary>
            <ul class="check-verdicts">
              {own.map(({ load, verdict }) => (
                <li key={load.lamp}>
                  <b>
                    {load.outputName}, {lampText(load)}.
                  </b>{' '}
                  {verdict.what} {verdict.next}
                </li>
              ))}
            </ul>
          </details>
        );
      })}
    </section>
  );
}
