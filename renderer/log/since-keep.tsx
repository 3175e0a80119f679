import { useComputed } from '@preact/signals';
import { capital } from '../../shared/findings/capital.ts';
import { counted, listed, spanText, timesText } from '../../shared/workbench/story/counted.ts';
import { clockText, momentMs, wallOf } from '../../shared/workbench/story/moment.ts';
import { type SinceKeep, sinceKeep } from '../../shared/workbench/story/since.ts';
import type { BoardModel } from '../model/board.ts';
import { usePanel } from '../model/context.ts';
import { dialsApart } from './apart.ts';
import { SINCE_ID } from './since-id.ts';
import { changeWords, storeWords } from './since-words.ts';

/** How long ago it was is told anew so often, ms. */
const EVERY = 30_000;

/** On top of the log: what would be lost if the power went now, and what else was done since each board was told to keep. */
export function SinceLastKeep() {
  const { model } = usePanel();
  const boards = model.boards.value;
  return (
    <section class="since" id={SINCE_ID} tabIndex={-1} aria-label="Since the last keep">
      {boards.length === 0 && <p>The open layout has no board yet.</p>}
      {boards.map((board) => (
        <SinceOf key={board.id} board={board} />
      ))}
    </section>
  );
}

function SinceOf({ board }: { readonly board: BoardModel }) {
  const { model } = usePanel();
  const state = board.state.value;
  // The wall of the model counts from when the panel was loaded; it only says when to look again.
  void useComputed(() => Math.floor(model.wall.value / EVERY)).value;
  const now = Date.now();
  const compiled = model.open.value.boards.find(({ id }) => id === board.id);
  const apart = compiled ? dialsApart(compiled.sites, state) : null;
  const since = sinceKeep(model.log.value, board.id, apart);
  const { times, edits, sends } = since;
  const suffix = since.keep ? ' since.' : '.';
  const isNothing = times.length + edits.length + sends.length === 0;
  return (
    <details
      class="since-board"
      open={model.logbook.since.value}
      onToggle={(event) => {
        model.logbook.since.value = event.currentTarget.open;
      }}
    >
      <summary>
        <b>{model.boardName(board.id)}</b> {whenKept(since, model.logbook.zone, now)}{' '}
        {isNothing ? `Nothing has changed${suffix}` : `${capital(amounts(since))}${suffix}`}
      </summary>
      {storeWords(state) && <p>{storeWords(state)}</p>}
      {!isNothing && (
        <ul>
          {times.map((time) => (
            <li key={time.name}>{changeWords(time)}</li>
          ))}
          {[...sends, ...edits].map((entry) => (
            <li key={entry.number}>{entry.text}</li>
          ))}
        </ul>
      )}
    </details>
  );
}

function whenKept({ keep }: SinceKeep, zone: (ms: number) => number, now: number): string {
  if (!keep) return 'has not kept anything in this session.';
  const ms = momentMs(keep.at);
  if (ms === null) return 'kept.';
  // The panel's clock and the host's are of one computer, but not of one program.
  return `kept at ${clockText(wallOf(ms, zone))}, ${spanText(Math.max(0, now - ms))} ago.`;
}

function amounts({ times, edits, sends }: SinceKeep): string {
  return listed([
    ...(times.length > 0 ? [`${counted(times.length, 'time')} changed`] : []),
    ...(sends.length > 0 ? [`sent ${timesText(sends.length)}`] : []),
    ...(edits.length > 0 ? [`${counted(edits.length, 'change')} of the layout`] : []),
  ]);
}
