import { useSignal } from '@preact/signals';
import { addRoad } from '../../../shared/layout/plan-edit/roads.ts';
import { snapPoint } from '../../../shared/layout/plan-edit/snap.ts';
import type { Panel } from '../../model/context.ts';
import { usePanel } from '../../model/context.ts';
import { REACH } from '../moving.ts';
import { length, minus, type Point, plus } from '../vectors.ts';
import { PlanCursor } from './cursor.tsx';

/** Points nearer than this are one, px. */
const SAME = 10;

/** A road point by point. */
export function DrawRoad() {
  const panel = usePanel();
  const { plan } = panel.model;
  const start = plan.placeAtHand() ?? plan.camera.middle();
  /** Where the pointer or the cross really is, so that it can get away from what it snapped to. */
  const free = useSignal<Point>(start);
  const at = useSignal<Point>(start);
  const draft = plan.draft.value;
  const px = plan.camera.scale.value;

  const go = (to: Point): void => {
    free.value = to;
    const { layout } = panel.model.open.peek();
    if (!layout || !plan.snaps.peek()) {
      at.value = { x: Math.round(to.x), y: Math.round(to.y) };
      return;
    }
    const reach = REACH * plan.camera.scale.peek();
    const found = snapPoint(layout, to, { reach, grid: plan.grid.peek(), beside: draft.slice(-1) });
    plan.snapped.value = found.to ?? '';
    at.value = found;
  };
  const set = (): void => {
    const last = draft.at(-1);
    const { x, y } = at.peek();
    const isLast = last !== undefined && length(minus(last, { x, y })) <= SAME * px;
    if (isLast && draft.length > 1) void finishRoad(panel);
    else if (!isLast) plan.draft.value = [...draft, { x, y }];
  };
  return (
    <g class="draft">
      <Line points={[...draft, at.value]} />
      {draft.map(({ x, y }, index) => (
        <circle key={index} class="knob" cx={x} cy={y} r={7 * px} stroke-width={2.5 * px} />
      ))}
      <PlanCursor
        id="road-cursor"
        label="Point of the road"
        description="Arrow keys move the cross by 10 mm, with Shift by 1 mm. Enter sets a point; Enter again ends the road. Backspace takes the last point back, Escape gives up."
        at={at}
        onMove={go}
        onStep={(by) => go(plus(free.peek(), by))}
        onSet={set}
        onBack={() => {
          plan.draft.value = draft.slice(0, -1);
        }}
        onGiveUp={() => plan.take('move')}
      />
    </g>
  );
}

function Line({ points }: { readonly points: readonly Point[] }) {
  return <polyline class="draft-line" points={points.map(({ x, y }) => `${x},${y}`).join(' ')} />;
}

/** The road is drawn as far as its points are set; then it wants a name. */
export async function finishRoad({ model, surface }: Panel): Promise<void> {
  const { plan, open } = model;
  const { layout } = open.peek();
  if (!layout) return;
  const drawn = addRoad(layout, plan.draft.peek());
  if (!(await plan.make(drawn)) || !('layout' in drawn)) return;
  plan.take('move');
  plan.choose(drawn.layout.roads?.at(-1)?.id ?? null);
  surface.focus('road-name');
}
