import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { BoardSwitch } from '../board/board-switch.tsx';
import { usePanel } from '../model/context.ts';
import { type FindModel, findOf } from './find.ts';
import { FindAsking } from './find-asking.tsx';
import { FindSummary } from './find-summary.tsx';

/** For what is wired and forgotten: outputs are lit, lamps are pointed at, the plan fills itself. */
export function FindSheet() {
  const { model } = usePanel();
  const find = findOf(model);
  useEffect(() => () => void find.leave(), [find]);
  switch (find.phase.value) {
    case 'begin':
      return <Begin find={find} />;
    case 'asking':
      return <FindAsking find={find} />;
    case 'summary':
      return <FindSummary find={find} />;
  }
}

function Begin({ find }: { readonly find: FindModel }) {
  const { model } = usePanel();
  const planned = useSignal(true);
  const { boards } = model;
  const id = boards.value.some((it) => it.id === find.board.value) ? find.board.value : (boards.value[0]?.id ?? '');
  const name = model.boardName(id);
  const state = model.board(id).state.value;
  const isThere = state.link === 'ready' && !state.task;
  const isRunning = model.board(id).runsLayout.value;
  const tries = find.triesFor(id, planned.value);
  const free = tries.filter(({ lamp }) => lamp === null).length;
  return (
    <div class="check-part">
      <ul class="cautions">
        <li>Each output is lit in flashes of less than a sixth of a second. Smell, smoke or heat: pull the plug.</li>
        <li>Extra-low voltage only. Do not do this with motors, relays or points on the pins: they would move.</li>
      </ul>
      <p>
        Put the sites with their lamps into the plan first, on any outputs. Then press each lamp that you see flash: it
        gets the output that it really hangs on.
      </p>
      <BoardSwitch
        boards={boards.value}
        chosen={id}
        choose={(chosen) => {
          find.board.value = chosen;
        }}
      />
      <label class="field check">
        <input
          type="checkbox"
          checked={planned.value}
          disabled={!isRunning}
          onChange={(event) => {
            planned.value = event.currentTarget.checked;
          }}
        />
        Also outputs that the plan uses, as lamps may hang on each other's
      </label>
      {!isThere && <p class="check-says">Connect {name} first.</p>}
      {isThere && !isRunning && (
        <p>
          {name} does not run this plan, so only its free outputs are lit, and what it runs goes on beside them. Send
          the plan to have everything else dark.
        </p>
      )}
      <p class="row">
        <button
          type="button"
          class="button strong tall"
          aria-disabled={!isThere || tries.length === 0}
          onClick={() => {
            find.board.value = id;
            if (isThere) void find.begin(planned.value);
          }}
        >
          Light {tries.length} outputs, {free} of them free
        </button>
        {find.found.value.length > 0 && (
          <button
            type="button"
            class="button tall"
            onClick={() => {
              find.phase.value = 'summary';
            }}
          >
            What was seen before
          </button>
        )}
      </p>
    </div>
  );
}
