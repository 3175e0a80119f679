import { countAnswered } from '../../shared/lampcheck/check.ts';
import type { CheckResult } from '../../shared/layout/check-record.ts';
import { usePanel } from '../model/context.ts';
import { GlowPicture } from '../practise/glow-picture.tsx';
import { HeadPicture } from './head-picture.tsx';
import { useCheckKeys } from './keys.ts';
import { ANSWERS, colourOf, outputOf, STANDING } from './words.ts';

/** One lamp, very large, and what is seen of it. */
export function Asking() {
  const { model } = usePanel();
  const { check } = model;
  const now = check.check.value;
  const load = check.step.value;
  const answer = (result: CheckResult, note?: string): void => {
    void check.answer(note === undefined ? { result } : { result, note });
  };
  useCheckKeys({
    ...Object.fromEntries(ANSWERS.map(({ key, result }) => [key, () => answer(result)])),
    Backspace: () => void check.takeBack(),
    ArrowLeft: () => void check.ask((check.check.value?.at ?? 0) - 1),
    ArrowRight: () => void check.ask((check.check.value?.at ?? 0) + 1),
  });
  if (!now || !load) return null;
  const answered = countAnswered(now);
  const before = now.answers.get(load.lamp);
  const verdict = check.selfCheck.verdict(now.board, load);
  const isShared = load.heads.length > 1;
  return (
    <div class="check-asking" data-lamp={load.lamp}>
      <HeadPicture loads={now.loads} load={load} />
      <div class="check-words">
        <p class="check-progress">
          <b>
            {now.at + 1} of {now.steps.length}
          </b>
          <progress
            max={now.steps.length}
            value={answered}
            aria-label={`${answered} of ${now.steps.length} answered`}
          />
        </p>
        <div aria-live="polite">
          <p class="check-site">{load.siteName}</p>
          <p class="check-name">
            {load.label}, {colourOf(load)}
          </p>
          <p class="check-output">
            {outputOf(load)}, {load.wire} wire
          </p>
        </div>
        <p class="check-note">
          {check.isKeptDark(load)
            ? 'It is not lit: a short was measured here.'
            : check.isProven(load)
              ? 'It is lit until you answer.'
              : 'It is lit in short flashes, one a second: nothing is known of this output yet, and a short would harm it.'}
          {before && ` Answered before: ${STANDING[before.result]}.`}
        </p>
        {verdict && <p class="check-note">Measured: {verdict.what}</p>}
        {isShared && (
          <p class="check-note">
            {load.heads.length} heads hang on it: {load.heads.map(({ name }) => name).join('; ')}. All of them should
            light.
          </p>
        )}
        <div class="check-answers">
          {ANSWERS.map(({ key, label, result }) => (
            <button
              key={key}
              type="button"
              class={result === 'right' ? 'button strong tall' : 'button tall'}
              aria-keyshortcuts={key}
              aria-label={label}
              onClick={() => answer(result)}
            >
              <kbd>{key}</kbd> {label}
            </button>
          ))}
        </div>
        {isShared && (
          <p class="row">
            {load.heads.map(({ id, name }) => (
              <button
                key={id}
                type="button"
                class="button"
                onClick={() => answer('dark', `Only ${name} lit.`.slice(0, 400))}
              >
                Only {name}
              </button>
            ))}
          </p>
        )}
        <p class="row">
          <button
            type="button"
            class="button"
            aria-keyshortcuts="Backspace"
            aria-disabled={now.past.length === 0}
            onClick={() => check.takeBack()}
          >
            Take the last answer back
          </button>
          <button type="button" class="button" onClick={() => check.ask(now.at - 1)}>
            Lamp before
          </button>
          <button type="button" class="button" onClick={() => check.ask(now.at + 1)}>
            Lamp after
          </button>
          <button
            type="button"
            class="button"
            onClick={() => {
              check.phase.value = 'walking';
            }}
          >
            Step by itself
          </button>
          <button type="button" class="button" onClick={() => check.leave()}>
            Leave it for now
          </button>
        </p>
      </div>
      <GlowPicture board={model.board(now.board)} />
    </div>
  );
}
