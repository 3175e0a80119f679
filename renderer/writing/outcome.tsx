import { useEffect, useRef } from 'preact/hooks';
import type { BoardState, Problem } from '../../shared/workbench/contract.ts';
import { ProblemText } from '../board/problem.tsx';
import { tableWords } from '../board/words.ts';
import { CommandButton } from '../commands/button.tsx';
import { usePanel } from '../model/context.ts';
import type { Job } from '../model/writing.ts';
import { LessCurrent } from './less-current.tsx';

/** It worked: what was done, and the next step. */
export function Done({ job, state }: { readonly job: Job; readonly state: BoardState }) {
  const { model } = usePanel();
  const board = model.board(job.board);
  const name = model.boardName(job.board);
  const version = state.who?.firmware;
  const isEmpty = board.state.value.running === 'none';
  return (
    <Outcome>
      <p class="lead" role="status">
        {job.is === 'replace'
          ? `Put the board at ${job.port} in the place of ${name}.`
          : `Wrote ${version ? `firmware ${version}` : 'the firmware'} to ${name}; it answered.`}
      </p>
      <LessCurrent state={state} />
      {state.problem && <ProblemText problem={state.problem} />}
      <p>
        {isEmpty
          ? 'It runs nothing yet: send the layout to it.'
          : `It runs ${tableWords(board.state.value.running)} and starts with ${tableWords(board.state.value.kept)}.`}
      </p>
      <p class="soft">If you took a capacitor out at its reset pin, put it back now.</p>
      <div class="row">
        {isEmpty && <CommandButton id="send" about={{ board }} class="button strong large" />}
        <CommandButton id="put-away" class={isEmpty ? 'button large' : 'button strong large'}>
          Close
        </CommandButton>
      </div>
    </Outcome>
  );
}

/** It did not: why, and the way to do it again. */
export function Failed({ job, problem }: { readonly job: Job; readonly problem: Problem }) {
  const { model } = usePanel();
  const board = model.board(job.board);
  // The firmware is on it; what is left to do is another thing.
  const isWritten = problem.code === 'restoreFailed';
  return (
    <Outcome>
      <div role="alert">
        <ProblemText problem={problem} />
      </div>
      <div class="row">
        {isWritten ? (
          <CommandButton id="send" about={{ board }} class="button strong large" />
        ) : (
          <button type="button" class="button strong large" onClick={() => void model.writing.begin()}>
            Try again
          </button>
        )}
        <CommandButton id="board-sheet" class="button large">
          Ports
        </CommandButton>
        <CommandButton id="put-away" class="button large">
          Close
        </CommandButton>
      </div>
    </Outcome>
  );
}

/** The keyboard goes to the next step: what it was on before is no longer there. */
function Outcome({ children }: { readonly children: preact.ComponentChildren }) {
  const place = useRef<HTMLDivElement>(null);
  useEffect(() => place.current?.querySelector<HTMLElement>('.button.strong')?.focus(), []);
  return (
    <div class="question" ref={place}>
      {children}
    </div>
  );
}
