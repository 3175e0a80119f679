import { useSignal } from '@preact/signals';
import type { Scope } from '../../shared/lampcheck/check.ts';
import { lampsInScope } from '../../shared/lampcheck/check.ts';
import { answersNow, countText } from '../../shared/lampcheck/document.ts';
import { BoardSwitch } from '../board/board-switch.tsx';
import { CommandButton } from '../commands/button.tsx';
import { usePanel } from '../model/context.ts';
import { SelfCheckPart } from './self-check.tsx';
import { whenAndWho } from './words.ts';

/** Which lamps, what the others do meanwhile, who looks; or on with a check that was left. */
export function Begin() {
  const { model } = usePanel();
  const { check, preferences, boards, open } = model;
  const board = useSignal(check.board.value ?? model.boardAtHand.value?.id ?? '');
  const choice = useSignal('all');
  const others = useSignal<'dark' | 'safe'>('dark');
  const id = boards.value.some((it) => it.id === board.value) ? board.value : (boards.value[0]?.id ?? '');
  const name = model.boardName(id);
  const state = model.board(id).state.value;
  const isReady = model.board(id).runsLayout.value;
  const loads = check.loads(id);
  const record = check.record(id);
  const left = check.unfinished(id);
  const open_ = lampsInScope(loads, { is: 'open' }, record).length;
  const sites = open.value.sites.filter((site) => site.board === id);
  const scope: Scope =
    choice.value === 'all' || choice.value === 'open' ? { is: choice.value } : { is: 'site', site: choice.value };
  const count = lampsInScope(loads, scope, record).length;
  const canBegin = isReady && count > 0 && !state.task;
  return (
    <div class="check-part">
      <ul class="cautions">
        <li>Look, do not touch: switch the supply off before you solder or move a wire.</li>
        <li>Extra-low voltage only. Never for real traffic.</li>
      </ul>
      <BoardSwitch
        boards={boards.value}
        chosen={id}
        choose={(chosen) => {
          board.value = chosen;
          choice.value = 'all';
        }}
      />
      {!isReady && (
        <div class="row" role="status">
          <p class="check-says">
            {state.link === 'ready' ? `${name} does not run this layout: send it first.` : `${name} is not connected.`}
          </p>
          {state.link === 'ready' ? (
            <CommandButton id="send" about={{ board: model.board(id) }} />
          ) : (
            <CommandButton id="board-sheet" />
          )}
        </div>
      )}
      {left && (
        <section class="check-left" aria-label="A check that was left">
          <p>
            Left before its end: {whenAndWho(left)}. So far {countText(answersNow(loads, left).values())}.
          </p>
          <button
            type="button"
            class="button strong tall"
            aria-disabled={!isReady}
            onClick={() => isReady && check.resume(id, others.value)}
          >
            Go on where it was left
          </button>
        </section>
      )}
      <fieldset class="check-choice">
        <legend>Which lamps</legend>
        <Choice of={choice} is="all" text={`All of ${name}: ${loads.length} lamps`} />
        {record && <Choice of={choice} is="open" text={`What is not right yet, or has another output now: ${open_}`} />}
        {sites.length > 1 &&
          sites.map((site) => <Choice key={site.id} of={choice} is={site.id} text={`Only ${site.names.name}`} />)}
      </fieldset>
      <fieldset class="check-choice">
        <legend>The other lamps meanwhile</legend>
        <Choice of={others} is="dark" text="Dark" />
        <Choice of={others} is="safe" text="Sites that are not at hand show their safe aspects" />
      </fieldset>
      <label class="field">
        Who looks
        <input
          class="remark"
          maxLength={60}
          value={preferences.checker}
          onInput={(event) => {
            preferences.checker.value = event.currentTarget.value;
          }}
        />
      </label>
      <p class="row">
        <button
          type="button"
          class={left ? 'button tall' : 'button strong tall'}
          aria-disabled={!canBegin}
          onClick={() => canBegin && check.begin({ board: id, scope, others: others.value })}
        >
          Check {count === 1 ? 'one lamp' : `${count} lamps`}
        </button>
        {state.checking && (
          <button type="button" class="button tall" onClick={() => model.ask('endCheck', { board: id })}>
            Let the sites show again
          </button>
        )}
        {record && (
          <button
            type="button"
            class="button tall"
            onClick={() => {
              check.board.value = id;
              check.phase.value = 'summary';
            }}
          >
            What was found
          </button>
        )}
      </p>
      <SelfCheckPart board={id} />
    </div>
  );
}

interface ChoiceProps<T extends string> {
  readonly of: { value: T };
  readonly is: T;
  readonly text: string;
}

function Choice<T extends string>({ of, is, text }: ChoiceProps<T>) {
  return (
    <label class="field check">
      <input
        type="radio"
        checked={of.value === is}
        onChange={() => {
          of.value = is;
        }}
      />
      {text}
    </label>
  );
}
