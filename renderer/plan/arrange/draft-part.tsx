import { usePanel } from '../../model/context.ts';
import { finishRoad } from './draw-road.tsx';

/** What can be done with the road that is being drawn. */
export function DraftPart() {
  const panel = usePanel();
  const { plan } = panel.model;
  const count = plan.draft.value.length;
  return (
    <div class="part">
      <p role="status">
        {count === 0 ? 'Press on the plan where the road begins.' : `${count} ${count === 1 ? 'point' : 'points'} set.`}
      </p>
      <div class="row">
        <button type="button" class="button strong thumb" disabled={count < 2} onClick={() => void finishRoad(panel)}>
          End the road here
        </button>
        <button
          type="button"
          class="button"
          disabled={count === 0}
          onClick={() => {
            plan.draft.value = plan.draft.peek().slice(0, -1);
          }}
        >
          Take a point back
        </button>
        <button type="button" class="button" onClick={() => plan.take('move')}>
          Give up the road
        </button>
      </div>
    </div>
  );
}
