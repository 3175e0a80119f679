import { usePanel } from '../model/context.ts';
import type { OpenSite } from '../model/document.ts';
import { greensOf } from './next-green.ts';

/** Which green to hold when it comes; the armed one is pressed, and lets go of it. */
export function HoldNext({ site }: { readonly site: OpenSite }) {
  const { model } = usePanel();
  const board = model.board(site.board);
  const greens = greensOf(site);
  const armed = board.state.value.arms.find((arm) => arm.site === site.number)?.rows ?? [];
  const isReady = board.runsLayout.value;
  // Shown once it is armed: most want the next green, whichever it is.
  if (greens.length === 0 || armed.length === 0) return null;
  return (
    <fieldset class="hold-next" aria-label="Hold when it comes">
      <span aria-hidden="true">Hold at next</span>
      {greens.map(({ label, rows }) => {
        const isArmed = rows.some((row) => armed.includes(row));
        return (
          <button
            key={label}
            type="button"
            class="button"
            aria-pressed={isArmed}
            aria-disabled={!isReady}
            onClick={() => {
              if (!isReady) return;
              void model.ask('holdAt', { board: site.board, site: site.number, rows: isArmed ? [] : [...rows] });
            }}
          >
            <span class="unseen">Hold at the next </span>
            {label}
            {isArmed && <b> waits</b>}
          </button>
        );
      })}
    </fieldset>
  );
}
