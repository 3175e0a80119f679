import { useRef } from 'preact/hooks';
import { movePicture, turnPicture } from '../../shared/layout/plan-edit/underlay.ts';
import { usePanel } from '../model/context.ts';
import { ARROWS, pointOf } from '../plan/arrange/pointer.ts';
import { FINE, STEP } from '../plan/moving.ts';
import { minus, type Point, plus } from '../plan/vectors.ts';

/** Keys in quick succession are one way, ms. */
const TOGETHER = 700;
const TURNS: Readonly<Record<string, number>> = { ',': -1, '.': 1, '<': -0.1, '>': 0.1, ';': -0.1, ':': 0.1 };

/** All of the plan is a handle of the picture while it is moved. */
export function MovePicture() {
  const { model } = usePanel();
  const { plan } = model;
  const from = useRef<Point | null>(null);
  const timer = useRef<ReturnType<typeof setTimeout> | undefined>(undefined);
  const { left, top, right, bottom } = plan.camera.box.value;
  const stand = async (): Promise<void> => {
    clearTimeout(timer.current);
    const by = plan.pictureWay.peek();
    const { layout } = model.open.peek();
    if (by && layout && (by.x !== 0 || by.y !== 0)) await plan.make(movePicture(layout, by));
    plan.pictureWay.value = null;
  };
  return (
    // biome-ignore lint/a11y/useSemanticElements: an SVG has no button of its own
    <rect
      class="sheet-of-glass moves"
      id="move-picture"
      role="button"
      tabindex={0}
      aria-label="The picture"
      aria-description="Arrow keys move it by 10 mm, with Shift by 1 mm. Comma and full stop turn it by 1 degree, with Shift by 0.1. Escape ends."
      data-drags="picture"
      x={left}
      y={top}
      width={right - left}
      height={bottom - top}
      onPointerDown={(event) => {
        if (event.button !== 0) return;
        from.current = pointOf(event, plan.camera);
        event.currentTarget.setPointerCapture(event.pointerId);
      }}
      onPointerMove={(event) => {
        if (from.current) plan.pictureWay.value = minus(pointOf(event, plan.camera), from.current);
      }}
      onPointerUp={() => {
        from.current = null;
        void stand();
      }}
      onPointerCancel={() => {
        from.current = null;
        plan.pictureWay.value = null;
      }}
      onKeyDown={(event) => {
        const arrow = ARROWS[event.key];
        const turn = TURNS[event.key];
        const { layout } = model.open.peek();
        if (arrow) {
          plan.pictureWay.value = plus(plan.pictureWay.peek() ?? { x: 0, y: 0 }, arrow, event.shiftKey ? FINE : STEP);
          clearTimeout(timer.current);
          timer.current = setTimeout(() => void stand(), TOGETHER);
        } else if (turn !== undefined && layout) {
          void plan.make(turnPicture(layout, (layout.underlay?.turn ?? 0) + turn));
        } else if (event.key === 'Escape') plan.take('move');
        else return;
        event.preventDefault();
      }}
    />
  );
}
