import type { ComponentChildren } from 'preact';
import { CommandButton } from '../commands/button.tsx';
import { dayTime } from '../log/clock-time.ts';
import { usePanel } from '../model/context.ts';
import type { Job } from '../model/writing.ts';

/** What writing the firmware does, before anything is done. */
export function AskWrite({ job }: { readonly job: Job }) {
  const { model } = usePanel();
  const { shipped } = model.board(job.board).state.value.firmware;
  return (
    <Question go="Write it">
      <p class="lead">
        {model.boardName(job.board)} at {job.port} gets {shipped ? `firmware ${shipped}` : 'the firmware of this app'}.
      </p>
      <ul class="plain">
        <li>It replaces the program that is on the board now.</li>
        <li>What the board has kept stays.</li>
        <li>It takes about half a minute; the lamps are dark meanwhile.</li>
      </ul>
      <BeforeAndMeanwhile />
    </Question>
  );
}

/** What a board gets that takes the place of another, before anything is done. */
export function AskReplace({ job }: { readonly job: Job }) {
  const { model } = usePanel();
  const { copiedAt, firmware } = model.board(job.board).state.value;
  const name = model.boardName(job.board);
  return (
    <Question go="Replace it">
      <p class="lead">
        The board at {job.port} takes the place of {name}. It gets:
      </p>
      <ul class="plain">
        <li>
          firmware{firmware.shipped ? ` ${firmware.shipped}` : ''}, if it has none or an older one, in place of the
          program that is on it now
        </li>
        <li>the name {name}</li>
        <li>
          {copiedAt === null
            ? 'the open layout with its planned times: this computer has no copy of what the old board kept'
            : `what the old board kept last, by the copy from ${dayTime(copiedAt)}`}
        </li>
      </ul>
      <p>It keeps all this and starts with it from then on. It takes about a minute.</p>
      <BeforeAndMeanwhile />
    </Question>
  );
}

function BeforeAndMeanwhile() {
  return (
    <ul class="plain">
      <li>If there is a capacitor at its reset pin, take it out first and put it back afterwards.</li>
      <li>
        You can break it off: the board is then empty, nothing is broken, press the same button again to start over.
      </li>
    </ul>
  );
}

function Question({ go, children }: { readonly go: string; readonly children: ComponentChildren }) {
  const { model } = usePanel();
  return (
    <div class="question">
      {children}
      <div class="row">
        <button type="button" class="button strong large" onClick={() => void model.writing.begin()}>
          {go}
        </button>
        <CommandButton id="put-away" class="button large">
          Not now
        </CommandButton>
      </div>
    </div>
  );
}
