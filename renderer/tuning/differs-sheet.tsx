import { timeText } from '../../shared/workbench/words.ts';
import { CommandButton } from '../commands/button.tsx';
import { type DialTimes, differs, signed, timesOf } from '../model/compare.ts';
import { usePanel } from '../model/context.ts';
import { closeSheet } from '../model/surface.ts';
import { backToPlan, takeIntoPlan } from './plan-times.ts';
import { UnsentNote } from './unsent-note.tsx';

/** Every time of the board at hand that is not the same in plan, running table and memory. */
export function DiffersSheet() {
  const { model } = usePanel();
  const board = model.boardAtHand.value;
  if (!board) return <p>The layout has no board yet.</p>;
  const isRunning = board.runsLayout.value;
  const apart = timesOf(model, board.id).filter(differs);
  return (
    <>
      <p class="row">
        <CommandButton id="take-into-plan" />
        <CommandButton id="back-to-plan" />
        <CommandButton id="keep" />
        <CommandButton id="put-back" />
      </p>
      <UnsentNote board={board.id} />
      {!isRunning && (
        <p>{model.boardName(board.id)} does not run this layout now, so there is nothing to compare with.</p>
      )}
      {isRunning && apart.length === 0 && (
        <p>Nothing differs: planned, running and kept times of {model.boardName(board.id)} are the same.</p>
      )}
      {apart.length > 0 && (
        <table class="times">
          <caption>
            {apart.length === 1 ? 'One time differs' : `${apart.length} times differ`} on {model.boardName(board.id)}
          </caption>
          <thead>
            <tr>
              <th scope="col">Time</th>
              <th scope="col">Planned</th>
              <th scope="col">Running</th>
              <th scope="col">Kept</th>
              <th scope="col">Do</th>
            </tr>
          </thead>
          <tbody>
            {apart.map((times) => (
              <Row key={`${times.site.id} ${times.id}`} times={times} />
            ))}
          </tbody>
        </table>
      )}
    </>
  );
}

function Row({ times }: { readonly times: DialTimes }) {
  const { model, surface } = usePanel();
  const { site, id, name, planned, running, kept } = times;
  const whole = `${site.names.name}: ${name}`;
  const go = (): void => {
    model.choose(site.id);
    model.preferences.distance.value = 'layout';
    closeSheet(surface);
    surface.focus(`dial-${id}`);
  };
  const isUnplanned = running !== null && running !== planned;
  return (
    <tr>
      <th scope="row">
        <button type="button" class="button jump" title="Goes to this dial" onClick={go}>
          {whole}
        </button>
      </th>
      <Cell ms={planned} running={running} />
      <td class="now">{running === null ? '–' : timeText(running)}</td>
      <Cell ms={kept} running={running} />
      <td class="row">
        {isUnplanned && (
          <>
            <button
              type="button"
              class="button"
              aria-label={`Take into the plan: ${whole}`}
              onClick={() => void takeIntoPlan(model, [times])}
            >
              Into the plan
            </button>
            <button
              type="button"
              class="button"
              aria-label={`Back to planned: ${whole}`}
              onClick={() => void backToPlan(model, [times])}
            >
              Back
            </button>
          </>
        )}
      </td>
    </tr>
  );
}

/** A time, and by how much the running one is off it. */
function Cell({ ms, running }: { readonly ms: number | null; readonly running: number | null }) {
  if (ms === null) return <td>–</td>;
  const off = running === null ? 0 : running - ms;
  return (
    <td>
      {timeText(ms)}
      {off !== 0 && <b class="off">runs {signed(off)}</b>}
    </td>
  );
}
