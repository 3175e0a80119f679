import { usePanel } from '../../model/context.ts';

/** What the thing that is dragged has snapped to, said at the edge of the plan. */
export function SnapNote() {
  const { model } = usePanel();
  const { arranging, snapped } = model.plan;
  if (!arranging.value) return null;
  return (
    <output class="snap-note" aria-live="polite">
      {snapped.value === '' ? '' : `Snaps to: ${snapped.value}`}
    </output>
  );
}
