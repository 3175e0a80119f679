import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { grouped } from '../../shared/workbench/story/counted.ts';
import { usePanel } from '../model/context.ts';
import { SearchAll } from './search-all.tsx';
import { sessionFacts, sessionMoment } from './session-words.ts';

/** Other evenings on this computer: a list to read from, and a search through all of them. */
export function Earlier() {
  const { model } = usePanel();
  const { earlier, zone } = model.logbook;
  const refused = useSignal<string | null>(null);
  useEffect(() => {
    void earlier.read();
    return () => earlier.stop();
  }, [earlier]);
  const open = async (name: string, words = ''): Promise<void> => {
    refused.value = await model.logbook.open(name, words);
  };
  const list = earlier.list.value;
  return (
    <>
      <SearchAll open={open} />
      {refused.value && <p role="alert">{refused.value}</p>}
      {list === null && <p>Looking …</p>}
      {list?.length === 0 && <p>There is no earlier session on this computer.</p>}
      {earlier.search.value === null && list !== null && list.length > 0 && (
        // biome-ignore lint/a11y/noNoninteractiveTabindex: it scrolls, so the keyboard must reach it
        <ol class="sessions" tabIndex={0} aria-label="Sessions, newest first">
          {list.map((session) => {
            const moment = sessionMoment(session.from, session.name, zone);
            return (
              <li key={session.name} class="session row">
                <span class="session-words">
                  <b>{moment}</b>
                  <span>{sessionFacts(session)}</span>
                </span>
                <button
                  type="button"
                  class="button"
                  aria-label={`Read ${moment}`}
                  aria-disabled={session.problem !== null}
                  onClick={() => session.problem === null && void open(session.name)}
                >
                  Read
                </button>
              </li>
            );
          })}
          {earlier.rest.value && (
            <li>
              <button type="button" class="button" onClick={() => void earlier.more()}>
                Older sessions: {grouped(earlier.total.value - list.length)} more
              </button>
            </li>
          )}
        </ol>
      )}
    </>
  );
}
