import { CommandButton } from '../../commands/button.tsx';
import { usePanel } from '../../model/context.ts';
import { UnderlayPart } from '../../underlay/underlay-part.tsx';
import { BoardPart } from './board-part.tsx';
import { DraftPart } from './draft-part.tsx';
import { RoadPart } from './road-part.tsx';
import { SitePart } from './site-part.tsx';

/** Beside the plan while it is arranged: what is at hand, in figures. */
export function ArrangePanel() {
  const { model } = usePanel();
  const { plan } = model;
  const refusal = plan.refusal.value;
  const tool = plan.tool.value;
  return (
    <section class="site-panel arrange" aria-label="Arrange the plan">
      <header class="row arrange-head">
        <h2>Arrange the plan</h2>
        <CommandButton id="arrange" class="button strong">
          Done
        </CommandButton>
      </header>
      <div class="row">
        <CommandButton id="draw-road" class="button thumb" pressed={tool === 'road'} />
        <CommandButton id="snap" class="button thumb" pressed={plan.snaps.value}>
          {plan.snaps.value ? 'Snap is on' : 'Snap is off'}
        </CommandButton>
        <label class="field">
          Grid
          <select value={String(plan.grid.value)} onChange={(event) => plan.setGrid(event.currentTarget.value)}>
            {['5', '10', '25', '50', '100'].map((mm) => (
              <option key={mm} value={mm}>
                {mm} mm
              </option>
            ))}
          </select>
        </label>
      </div>
      {refusal && (
        <p class="refusal" role="alert">
          {refusal.what} {refusal.why} {refusal.cure}
        </p>
      )}
      {tool === 'road' && <DraftPart />}
      <SitePart />
      <RoadPart />
      <BoardPart />
      <UnderlayPart />
    </section>
  );
}
