import { usePanel } from '../../model/context.ts';

/** Lines nearer to each other would be a grey, px. */
const LEAST = 9;

/** The grid that things snap to, while they do; of a fine one every fourth or tenth line. */
export function Grid() {
  const { model } = usePanel();
  const { arranging, snaps, grid, camera } = model.plan;
  if (!arranging.value || !snaps.value) return null;
  const px = camera.scale.value;
  const step = [1, 4, 10, 40].map((times) => times * grid.value).find((mm) => mm / px >= LEAST);
  const { width, height } = camera.board.value;
  if (step === undefined) return null;
  return (
    <>
      <defs>
        <pattern id="snap-grid" width={step} height={step} patternUnits="userSpaceOnUse">
          <path class="grid-line" d={`M0 0 H${step} M0 0 V${step}`} stroke-width={px} />
        </pattern>
      </defs>
      <rect class="snap-grid" width={width} height={height} fill="url(#snap-grid)" />
    </>
  );
}
