import { timeText } from '../../shared/workbench/words.ts';
import { clockTime } from '../log/clock-time.ts';
import { type Point, pointsOf, walkTo, wayTo } from '../model/changes.ts';
import { signed } from '../model/compare.ts';
import { usePanel } from '../model/context.ts';
import type { Model } from '../model/model.ts';

/** All changes of times on the board at hand, newest first; any moment can be gone to, and come back from. */
export function ChangesSheet() {
  const { model } = usePanel();
  const board = model.boardAtHand.value;
  if (!board) return <p>The layout has no board yet.</p>;
  const points = pointsOf(model.log.value, board.id);
  const hasChanges = points.some(({ changes }) => changes.length > 0);
  if (!hasChanges)
    return (
      <p>No time was changed on {model.boardName(board.id)} in this session. Turn a dial and it is listed here.</p>
    );
  const first = points[0];
  return (
    <>
      <p>
        Go to any moment: the dials take the times that ran then. What came after it stays in this list, so you can go
        on again. Undo takes a step back, too.
      </p>
      <ol class="changes" reversed>
        {points
          .map((point, at) => ({ point, at }))
          .reverse()
          .map(({ point, at }) => (
            <OnePoint key={point.number} points={points} point={point} at={at} board={board.id} />
          ))}
        {first && (
          <li class="one-change">
            <p class="change-words">
              <span>Before all of these</span>
            </p>
            <WalkButton points={points} at={-1} board={board.id} when="the beginning" />
          </li>
        )}
      </ol>
    </>
  );
}

interface Props {
  readonly points: readonly Point[];
  readonly at: number;
  readonly board: string;
}

function OnePoint({ point, ...props }: Props & { readonly point: Point }) {
  const { model } = usePanel();
  const when = clockTime(point.at);
  return (
    <li class="one-change">
      <p class="change-words">
        <time dateTime={point.at}>{when}</time>
        <span class="who">{whoWords(point)}</span>
      </p>
      <ul>
        {point.changes.length === 0 && <li>{point.text}</li>}
        {point.changes.map(({ site, dial, from, to }) => (
          <li key={`${site} ${dial}`}>
            {nameOf(model, site, dial)} {timeText(from)} → <b>{timeText(to)}</b> ({signed(to - from)})
          </li>
        ))}
      </ul>
      <WalkButton {...props} when={when} />
    </li>
  );
}

function WalkButton({ points, at, board, when }: Props & { readonly when: string }) {
  const { model } = usePanel();
  const way = wayTo(model, board, points, at);
  const isRunning = model.board(board).runsLayout.value;
  if (isRunning && way.length === 0) return <b class="is-now">These run now.</b>;
  return (
    <button
      type="button"
      class="button"
      aria-label={`Go there: the times of ${when}`}
      aria-disabled={!isRunning}
      onClick={() => {
        if (isRunning) void walkTo(model, board, points, at, when);
      }}
    >
      Go there
    </button>
  );
}

function whoWords({ who }: Point): string {
  const words: Readonly<Record<string, string>> = {
    nudge: 'at the dial',
    sets: 'A and B',
    walk: 'in this list',
    plan: 'plan',
    undo: 'undo',
    upload: 'sent',
    putBack: 'put back',
    keep: 'kept',
  };
  return words[who] ?? who;
}

function nameOf({ open }: Model, siteId: string, dialId: string): string {
  const names = open.value.sites.find(({ id }) => id === siteId)?.names;
  const dial = names?.dials.find(({ id }) => id === dialId);
  return `${names?.name ?? siteId}: ${dial?.name ?? dialId}`;
}
