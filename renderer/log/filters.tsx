import { useComputed, useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { grouped } from '../../shared/workbench/story/counted.ts';
import { countIn, isEverything, spokenOf } from '../../shared/workbench/story/filter.ts';
import { GROUPS } from '../../shared/workbench/story/groups.ts';
import { usePanel } from '../model/context.ts';
import { ChapterChoice } from './chapter-choice.tsx';

/** Typing goes on before the count is spoken, ms. */
const SPOKEN_AFTER = 600;

/** What of the story is shown: words, groups, board and site. */
export function Filters() {
  const { model } = usePanel();
  const { logbook } = model;
  const spoken = useComputed(() => spokenOf(logbook.entries.value)).value;
  const chosen = logbook.groups.value;
  return (
    <search class="log-filters" aria-label="What is shown">
      <div class="row">
        <input
          id="log-search"
          type="search"
          class="remark"
          aria-label="Search the log"
          placeholder="Search"
          maxLength={200}
          value={logbook.words}
          onInput={(event) => {
            logbook.words.value = event.currentTarget.value;
          }}
          onKeyDown={(event) => {
            if (event.key !== 'Escape' || logbook.words.peek() === '') return;
            // The words first, the sheet next time.
            event.stopPropagation();
            event.preventDefault();
            logbook.words.value = '';
          }}
        />
        <Choice
          label="Board"
          all="All boards"
          options={spoken.boards.map(({ id, name }) => [id, name])}
          value={logbook.board.value}
          choose={(id) => {
            logbook.board.value = id;
          }}
        />
        <Choice
          label="Site"
          all="All sites"
          options={spoken.sites.map((name) => [name, name])}
          value={logbook.site.value}
          choose={(name) => {
            logbook.site.value = name;
          }}
        />
        <ChapterChoice />
        <Count />
      </div>
      <fieldset class="row log-groups" aria-label="Show only">
        {GROUPS.map(({ id, name, hint }) => (
          <button
            key={id}
            type="button"
            class="button"
            title={hint}
            aria-pressed={chosen.has(id)}
            onClick={() => logbook.toggleGroup(id)}
          >
            {name}
          </button>
        ))}
        {!isEverything(logbook.filter.value) && (
          <button type="button" class="button" onClick={() => logbook.showEverything()}>
            Show everything
          </button>
        )}
      </fieldset>
    </search>
  );
}

interface ChoiceProps {
  readonly label: string;
  readonly all: string;
  readonly options: readonly (readonly [value: string, name: string])[];
  readonly value: string | null;
  choose(value: string | null): void;
}

/** Nothing where there is no choice. */
function Choice({ label, all, options, value, choose }: ChoiceProps) {
  if (options.length < 2 && value === null) return null;
  return (
    <select aria-label={label} value={value ?? ''} onChange={(event) => choose(event.currentTarget.value || null)}>
      <option value="">{all}</option>
      {options.map(([id, name]) => (
        <option key={id} value={id}>
          {name}
        </option>
      ))}
    </select>
  );
}

/** Seen at once, spoken when the typing has stopped. */
function Count() {
  const { model } = usePanel();
  const { logbook } = model;
  const all = logbook.entries.value.length;
  const shown = isEverything(logbook.filter.value) ? all : countIn(logbook.shown.value);
  const text = shown === all ? `${grouped(all)} entries` : `${grouped(shown)} of ${grouped(all)} entries`;
  const spoken = useSignal('');
  useEffect(() => {
    const timer = setTimeout(() => {
      spoken.value = text;
    }, SPOKEN_AFTER);
    return () => clearTimeout(timer);
  }, [text, spoken]);
  return (
    <>
      <span class="log-count" aria-hidden="true">
        {text}
      </span>
      <span class="unseen" role="status">
        {spoken.value}
      </span>
    </>
  );
}
