import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { flashWords } from '../../shared/lampcheck/lit-time.ts';
import { usePanel } from '../model/context.ts';
import { GlowPicture } from '../practise/glow-picture.tsx';
import { HeadPicture } from './head-picture.tsx';
import { useCheckKeys } from './keys.ts';
import { numbersIn } from './numbers.ts';
import { tone } from './tone.ts';
import { Walk } from './walk.ts';
import { colourOf } from './words.ts';

const BEATS = ['3', '4', '5', '6', '8', '10'] as const;

/** From across the room: it steps by itself, and each lamp blinks its number. */
export function Walking() {
  const { model } = usePanel();
  const { check, preferences } = model;
  const stands = useSignal(false);
  const now = check.check.value;
  const load = check.step.value;
  useCheckKeys({
    ' ': () => {
      stands.value = !stands.value;
    },
    Backspace: () => void check.endWalk(),
  });
  useEffect(() => {
    const walk = new Walk(check, {
      seconds: () => Number(preferences.checkBeat.peek()),
      onStep: (isProven) => {
        if (preferences.checkTone.peek()) tone(isProven ? 660 : 440);
      },
    });
    if (!stands.value) walk.go();
    return () => walk.stop();
  }, [check, stands.value]);
  if (!now || !load) return null;
  const number = numbersIn(now.steps).get(load.lamp) ?? 0;
  return (
    <div class="check-walking">
      <HeadPicture loads={now.loads} load={load} />
      <div class="check-words">
        <p class="check-figure">
          {number} <span class="check-of">of {load.siteName}</span>
        </p>
        <p class="check-far">
          {load.label}, {colourOf(load)}
        </p>
        <p class="check-far">{load.outputName}</p>
        <p class="check-note">
          {check.isProven(load)
            ? `It blinks ${flashWords(number)}.`
            : 'Nothing is known of this output yet, so it only flashes shortly, once a second.'}{' '}
          Remember the numbers that were not right.
        </p>
        <p class="row">
          <button
            type="button"
            class="button tall"
            aria-pressed={stands.value}
            onClick={() => {
              stands.value = !stands.value;
            }}
          >
            {stands.value ? 'Walk on' : 'Stand still'}
          </button>
          <label class="field">
            Seconds a lamp
            <select
              value={preferences.checkBeat.value}
              onChange={(event) => {
                preferences.checkBeat.value = event.currentTarget.value;
              }}
            >
              {BEATS.map((beat) => (
                <option key={beat}>{beat}</option>
              ))}
            </select>
          </label>
          <label class="field check">
            <input
              type="checkbox"
              checked={preferences.checkTone.value}
              onChange={(event) => {
                preferences.checkTone.value = event.currentTarget.checked;
              }}
            />
            A tone at each step
          </label>
          <button
            type="button"
            class="button tall"
            onClick={() => {
              check.phase.value = 'marking';
            }}
          >
            That is enough
          </button>
        </p>
      </div>
      <GlowPicture board={model.board(now.board)} />
    </div>
  );
}
