import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { usePanel } from '../model/context.ts';
import { LampList } from './lamp-list.tsx';
import { numbersIn } from './numbers.ts';

/** After a walk: which of the lamps were not right. Those are asked for one by one. */
export function Marking() {
  const { model } = usePanel();
  const { check } = model;
  const wrong = useSignal<ReadonlySet<number>>(new Set());
  const now = check.check.value;
  useEffect(() => {
    void check.darken();
  }, [check]);
  if (!now) return null;
  const numbers = numbersIn(now.steps);
  // A walk that was ended early has not shown what comes after.
  const walked = now.steps.filter((load, index) => index <= now.at && !now.answers.has(load.lamp));
  const right = walked.filter(({ lamp }) => !wrong.value.has(lamp));
  return (
    <div class="check-part">
      <p class="check-says">Press the lamps that were not right. They are then asked for one by one.</p>
      <LampList
        loads={walked}
        extra={({ lamp }) => String(numbers.get(lamp) ?? '')}
        isChosen={({ lamp }) => wrong.value.has(lamp)}
        onChoose={({ lamp }) => {
          const next = new Set(wrong.value);
          if (!next.delete(lamp)) next.add(lamp);
          wrong.value = next;
        }}
      />
      <p class="row">
        <button
          type="button"
          class="button strong tall"
          aria-disabled={right.length === 0}
          onClick={() => right.length > 0 && check.allRight(right)}
        >
          {rightWords(right.length, walked.length)}
        </button>
        <button
          type="button"
          class="button tall"
          onClick={() => {
            const first = now.steps.findIndex(({ lamp }) => !now.answers.has(lamp));
            void check.ask(first).then(() => {
              check.phase.value = 'walking';
            });
          }}
        >
          Walk once more
        </button>
        <button type="button" class="button tall" onClick={() => check.endWalk()}>
          Ask for all of them one by one
        </button>
      </p>
    </div>
  );
}

function rightWords(right: number, of: number): string {
  if (right === of) return of === 1 ? 'It was right' : `All ${of} were right`;
  if (right === 0) return 'None was right';
  return right === 1 ? 'The other one was right' : `The other ${right} were right`;
}
