import { useSignal } from '@preact/signals';
import { useEffect, useLayoutEffect, useRef } from 'preact/hooks';
import type { Frame } from '../../shared/workbench/contract.ts';
import { BoardSwitch } from '../board/board-switch.tsx';
import { CommandButton } from '../commands/button.tsx';
import { usePanel } from '../model/context.ts';
import { isTrouble } from '../model/frames.ts';
import { FrameLine } from './frame-line.tsx';

/** The list is read anew so often while it is open, ms. */
const REFRESH = 500;
/** Nearer to the end than this counts as at the end, px. */
const AT_END = 24;

/** The last lines between this computer and a board, newest at the bottom, each with its meaning. */
export function FramesSheet() {
  const { model } = usePanel();
  const chosen = useSignal<string | null>(null);
  const onlyTrouble = useSignal(false);
  const boards = model.boards.value;
  const board = boards.find(({ id }) => id === chosen.value) ?? model.boardAtHand.value;
  useReading(board?.id ?? null);
  const all = model.frames.lines.value;
  const shown = onlyTrouble.value ? all.filter(isTrouble) : all;
  return (
    <>
      <div class="row">
        <BoardSwitch boards={boards} chosen={board?.id ?? ''} choose={(id) => (chosen.value = id)} />
        <label class="field check">
          <input
            type="checkbox"
            checked={onlyTrouble.value}
            onChange={(event) => {
              onlyTrouble.value = event.currentTarget.checked;
            }}
          />
          Only trouble
        </label>
        <CommandButton id="save-report" />
      </div>
      {shown.length === 0 && <p>{emptyWords(all.length, board?.state.value.link === 'ready')}</p>}
      <Lines key={board?.id} shown={shown} />
    </>
  );
}

function emptyWords(all: number, isReady: boolean): string {
  if (all > 0) return `No trouble in the last ${all} lines.`;
  return isReady ? 'Nothing has been said yet.' : 'Nothing has been said yet: connect a board first.';
}

function useReading(board: string | null): void {
  const { model } = usePanel();
  useEffect(() => {
    if (board === null) return;
    void model.frames.read(board);
    const timer = setInterval(() => void model.frames.read(board), REFRESH);
    return () => clearInterval(timer);
  }, [model, board]);
}

/** Follows the newest line as long as the end is in sight; who has scrolled up to read is left in peace. */
function Lines({ shown }: { readonly shown: readonly Frame[] }) {
  const list = useRef<HTMLOListElement>(null);
  const follows = useRef(true);
  useLayoutEffect(() => {
    if (follows.current && list.current) list.current.scrollTop = list.current.scrollHeight;
  }, [shown]);
  return (
    <ol
      class="frames"
      ref={list}
      // biome-ignore lint/a11y/noNoninteractiveTabindex: it scrolls, so the keyboard must reach it
      tabIndex={0}
      aria-label="Lines, newest last"
      onScroll={({ currentTarget: { scrollTop, clientHeight, scrollHeight } }) => {
        follows.current = scrollHeight - scrollTop - clientHeight < AT_END;
      }}
    >
      {shown.map((frame) => (
        <FrameLine key={frame.number} frame={frame} />
      ))}
    </ol>
  );
}
