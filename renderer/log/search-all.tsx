import { useSignal } from '@preact/signals';
import { counted, grouped } from '../../shared/workbench/story/counted.ts';
import { searchFor } from '../../shared/workbench/story/search.ts';
import { usePanel } from '../model/context.ts';
import type { SearchState } from '../model/earlier-sessions.ts';
import { clockTime } from './clock-time.ts';
import { Marked } from './marked.tsx';
import { sessionMoment } from './session-words.ts';

/** Words looked for in all earlier sessions, part by part; it can be stopped at any moment. */
export function SearchAll({ open }: { open(name: string, words: string): Promise<void> }) {
  const { model } = usePanel();
  const { earlier } = model.logbook;
  const search = earlier.search.value;
  const words = useSignal(search?.words ?? '');
  return (
    <>
      <form
        class="row"
        onSubmit={(event) => {
          event.preventDefault();
          const wanted = words.value.trim();
          if (wanted === '') earlier.clear();
          else void earlier.find(wanted);
        }}
      >
        <input
          id="search-all"
          type="search"
          class="remark"
          aria-label="Search all earlier sessions"
          placeholder="Search all of them"
          maxLength={200}
          value={words}
          onInput={(event) => {
            words.value = event.currentTarget.value;
          }}
        />
        <button type="submit" class="button">
          Search
        </button>
        {search?.state === 'running' && (
          <button type="button" class="button" onClick={() => earlier.stop()}>
            Stop
          </button>
        )}
        {search && (
          <button
            type="button"
            class="button"
            onClick={() => {
              words.value = '';
              earlier.clear();
            }}
          >
            Show the list
          </button>
        )}
      </form>
      {search && <Found search={search} open={open} />}
    </>
  );
}

interface FoundProps {
  readonly search: SearchState;
  open(name: string, words: string): Promise<void>;
}

function Found({ search, open }: FoundProps) {
  const { model } = usePanel();
  const wanted = searchFor(search.words);
  return (
    <>
      {search.state === 'running' && (
        <progress max={Math.max(1, search.total)} value={search.looked} aria-label="Sessions looked through" />
      )}
      {/* While it runs, the bar says enough. */}
      <p role="status">{search.state === 'running' ? 'Searching …' : foundWords(search)}</p>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: it scrolls, so the keyboard must reach it */}
      <ol class="sessions" tabIndex={0} aria-label="Sessions in which it was found">
        {search.found.map(({ name, from, count, entries }) => {
          const moment = sessionMoment(from, name, model.logbook.zone);
          return (
            <li key={name} class="session row">
              <div class="session-words">
                <b>
                  {moment}: {counted(count, 'entry', 'entries')}
                </b>
                <ul>
                  {entries.map((entry) => (
                    <li key={entry.number}>
                      <time dateTime={entry.at}>{clockTime(entry.at)}</time>{' '}
                      <Marked text={entry.text} search={wanted} />
                    </li>
                  ))}
                  {count > entries.length && <li>and {counted(count - entries.length, 'entry', 'entries')} more</li>}
                </ul>
              </div>
              <button
                type="button"
                class="button"
                aria-label={`Read ${moment}`}
                onClick={() => void open(name, search.words)}
              >
                Read
              </button>
            </li>
          );
        })}
      </ol>
    </>
  );
}

function foundWords({ found, looked, unreadable, state }: SearchState): string {
  const entries = found.reduce((sum, { count }) => sum + count, 0);
  const where = `${grouped(looked)} ${looked === 1 ? 'session' : 'sessions'}`;
  const what =
    entries === 0
      ? `Nothing was found in ${where}.`
      : `Found ${counted(entries, 'entry', 'entries')} in ${grouped(found.length)} of ${where}.`;
  const torn =
    unreadable.length === 0
      ? ''
      : ` Could not be read: ${unreadable.slice(0, 3).join(', ')}${unreadable.length > 3 ? ` and ${unreadable.length - 3} more` : ''}.`;
  const why =
    state === 'stopped'
      ? ' It was stopped before the end.'
      : state === 'full'
        ? ' There may be more: look for something rarer.'
        : '';
  return `${what}${torn}${why}`;
}
