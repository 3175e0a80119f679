import { ProblemText } from '../board/problem.tsx';
import { CommandButton } from '../commands/button.tsx';
import { usePanel } from '../model/context.ts';

/** What happened last, in one line, and what this is not for. */
export function Foot() {
  const { model, surface } = usePanel();
  const newest = model.log.value.at(-1);
  const told = surface.told.value;
  const isTold = told !== null && told.after === (newest?.number ?? 0);
  const isNear = model.preferences.distance.value !== 'room';
  return (
    <footer class="foot">
      <p class="happened" aria-live="polite">
        {isTold ? told.text : (newest?.text ?? '')}
      </p>
      {isNear && <p class="caution">Extra-low voltage only. Never for real traffic.</p>}
    </footer>
  );
}

/** What did not work, until it is put away or the next thing works. */
export function TroubleNote() {
  const { model, surface } = usePanel();
  const trouble = model.trouble.value;
  if (!trouble) return null;
  // The sheet says it already.
  const writing = model.writing.now.value;
  if (surface.sheet.value === 'firmware' && writing?.step === 'failed' && writing.problem === trouble.problem)
    return null;
  // The note on the plan says it already.
  const board = trouble.about.board === undefined ? null : model.board(trouble.about.board).state.value;
  if (board && board.link !== 'ready' && board.problem?.code === trouble.problem.code) return null;
  return (
    <div class="trouble" role="alert">
      <ProblemText problem={trouble.problem} />
      <CommandButton id="put-away" />
    </div>
  );
}
