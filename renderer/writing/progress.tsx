import { useEffect, useRef } from 'preact/hooks';
import { CommandButton } from '../commands/button.tsx';
import type { BoardModel } from '../model/board.ts';
import { usePanel } from '../model/context.ts';
import { percentOf } from '../model/firmware.ts';
import { stageWords } from './words.ts';

interface Props {
  readonly board: BoardModel;
  /** Alone in its sheet, to be read from the layout. It takes the keyboard, so that no button is pressed by chance. */
  readonly isLarge?: boolean;
}

/** How far the writing is: the stage in words, a bar and its percent, and the way out while there is one. */
export function Progress({ board, isLarge = false }: Props) {
  const { model } = usePanel();
  const place = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (isLarge) place.current?.focus();
  }, [isLarge]);
  const { task } = board.state.value;
  const percent = task ? percentOf(task) : null;
  return (
    <div class={isLarge ? 'writing large' : 'writing'} ref={place} tabIndex={-1}>
      <p class="writing-board">{model.boardName(board.id)}</p>
      <p class="stage" aria-live="polite">
        {task?.stage ? stageWords(task.stage) : 'Opening the port'}
      </p>
      <p class="percent" data-known={percent !== null}>
        <progress max={100} value={percent ?? 0} aria-label="Of this part" />
        <span>{percent === null ? '' : `${percent} %`}</span>
      </p>
      <div class="row">
        <CommandButton id="cancel-firmware" about={{ board }} class={isLarge ? 'button large' : 'button'} />
      </div>
    </div>
  );
}
