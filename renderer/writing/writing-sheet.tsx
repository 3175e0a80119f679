import { usePanel } from '../model/context.ts';
import type { Writing } from '../model/writing.ts';
import { AskReplace, AskWrite } from './ask.tsx';
import { Done, Failed } from './outcome.tsx';
import { Progress } from './progress.tsx';

/** Name of the sheet: what is asked, done or told. */
export function writingTitle(writing: Writing | null): string {
  switch (writing?.job.is) {
    case 'update':
      return 'Update the firmware';
    case 'replace':
      return 'Replace a board';
    default:
      return 'Put the firmware on';
  }
}

/** The question, the work, and what came of it, one after the other in one place. */
export function WritingSteps() {
  const { model } = usePanel();
  const now = model.writing.now.value;
  switch (now?.step) {
    case 'ask':
      return now.job.is === 'replace' ? <AskReplace job={now.job} /> : <AskWrite job={now.job} />;
    case 'work':
      return <Progress board={model.board(now.job.board)} isLarge />;
    case 'done':
      return <Done job={now.job} state={now.state} />;
    case 'failed':
      return <Failed job={now.job} problem={now.problem} />;
    default:
      return <p>Nothing is being written.</p>;
  }
}
