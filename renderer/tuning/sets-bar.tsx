import { CommandButton } from '../commands/button.tsx';
import { usePanel } from '../model/context.ts';
import type { Letter } from '../model/sets.ts';

const LETTERS: readonly Letter[] = ['A', 'B'];

/** A and B as two large keys; the one that runs is pressed, and said so. */
export function SetKeys() {
  const { model } = usePanel();
  const { sets } = model;
  const on = sets.on.value;
  const site = model.siteAtHand.value;
  const isRunning = site !== null && model.board(site.board).runsLayout.value;
  return (
    <fieldset class="set-keys" aria-label="Set of times that runs">
      {LETTERS.map((letter) => {
        const isReady = isRunning && sets.has(letter);
        return (
          <button
            key={letter}
            type="button"
            class="set-key"
            aria-pressed={on === letter}
            aria-disabled={!isReady}
            title={sets.has(letter) ? `Runs set ${letter} (X goes to and fro)` : `Set ${letter} is not noted yet`}
            onClick={() => {
              if (isReady) void sets.switch(letter);
            }}
          >
            <span class="unseen">Run set </span>
            <b>{letter}</b>
            <span>{!sets.has(letter) ? 'not noted' : on === letter ? 'runs' : ''}</span>
          </button>
        );
      })}
      <p class="set-words" aria-live="polite">
        {words(on, sets.apart.length, sets.has('A') && sets.has('B'))}
      </p>
    </fieldset>
  );
}

/** At the dials, once a set is noted. */
export function SetsBar() {
  const { model } = usePanel();
  if (!model.sets.has('A') && !model.sets.has('B')) return null;
  return (
    <div class="sets-bar">
      <SetKeys />
      <CommandButton id="sets-sheet" class="button" label="Compare A and B">
        Compare
      </CommandButton>
    </div>
  );
}

function words(on: Letter | null, apart: number, both: boolean): string {
  if (!both) return 'Turn dials, then note the other set.';
  const count = apart === 0 ? 'They are the same.' : apart === 1 ? '1 time differs.' : `${apart} times differ.`;
  return on === null ? `Neither runs. ${count}` : `${on} runs; turning a dial changes ${on}. ${count}`;
}
