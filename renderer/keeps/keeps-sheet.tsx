import { useEffect } from 'preact/hooks';
import type { BoardModel } from '../model/board.ts';
import { usePanel } from '../model/context.ts';
import { putBackKept } from '../model/keeps.ts';
import { OneKeep } from './one-keep.tsx';
import { spanOf } from './words.ts';

/** What the board at hand kept before, newest first. One that is chosen runs and is kept at once. */
export function KeepsSheet() {
  const { model } = usePanel();
  const board = model.boardAtHand.value;
  if (!board) return <p>The open file has no board yet.</p>;
  return <KeepsOf key={board.id} board={board} />;
}

function KeepsOf({ board }: { readonly board: BoardModel }) {
  const { model } = usePanel();
  const { keeps, kept, unkept, task, link, runningDials } = board.state.value;
  const isReady = link === 'ready' && task === null;
  const running = JSON.stringify(runningDials);
  // What differs from now changes with every nudge.
  useEffect(() => {
    if (task === null) void model.keeps.read(board.id);
  }, [model, board, keeps, kept, link, running, task === null]);
  const list = model.keeps.list.value;
  const now = new Date(performance.timeOrigin + model.wall.value);
  return (
    <>
      <p>
        This computer has copies of what {model.boardName(board.id)} kept: the last 20 of today, one a day for a week,
        one a week before that. The one that you choose is sent and kept in one step; choose another to undo it.
        {unkept && ' What runs now is not kept: keep it first if you want to have it in this list.'}
      </p>
      {task?.name === 'putBack' && (
        <progress max={Math.max(1, task.total)} value={task.done} aria-label="Done so far" />
      )}
      {list?.length === 0 && <p>It has not kept anything yet while it was connected here.</p>}
      {spans(list ?? [], now).map(({ span, copies }) => (
        <section key={span} aria-label={span}>
          <h3>{span}</h3>
          <ol class="keeps">
            {copies.map((copy) => (
              <OneKeep
                key={`${copy.at} ${copy.crc}`}
                copy={copy}
                now={now}
                isReady={isReady}
                choose={() => void putBackKept(model, board.id, copy)}
              />
            ))}
          </ol>
        </section>
      ))}
    </>
  );
}

function spans<T extends { readonly at: string }>(list: readonly T[], now: Date) {
  const names = [...new Set(list.map(({ at }) => spanOf(at, now)))];
  return names.map((span) => ({ span, copies: list.filter(({ at }) => spanOf(at, now) === span) }));
}
