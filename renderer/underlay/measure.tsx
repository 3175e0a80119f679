import { useSignal } from '@preact/signals';
import { usePanel } from '../model/context.ts';
import { PlanCursor } from '../plan/arrange/cursor.tsx';
import { type Point, plus } from '../plan/vectors.ts';

/** Two points of the picture whose distance is known. */
export function Measure() {
  const { model, surface } = usePanel();
  const { plan } = model;
  const at = useSignal<Point>(plan.camera.middle());
  const points = plan.measured.value;
  const px = plan.camera.scale.value;
  const set = (): void => {
    const { x, y } = at.peek();
    // A third point begins anew.
    plan.measured.value = points.length >= 2 ? [{ x, y }] : [...points, { x, y }];
    if (plan.measured.peek().length === 2) surface.focus('measured-length');
  };
  const [from, to] = points;
  const end = to ?? at.value;
  return (
    <g class="draft">
      {from && <line class="measure-line" x1={from.x} y1={from.y} x2={end.x} y2={end.y} stroke-width={3 * px} />}
      {points.map(({ x, y }, index) => (
        <circle key={index} class="knob" cx={x} cy={y} r={7 * px} stroke-width={2.5 * px} />
      ))}
      <PlanCursor
        id="measure-cursor"
        label={points.length === 1 ? 'Second point' : 'First point'}
        description="Arrow keys move the cross by 10 mm, with Shift by 1 mm. Enter sets a point. Backspace takes one back, Escape gives up."
        at={at}
        onMove={(next) => {
          at.value = next;
        }}
        onStep={(by) => {
          at.value = plus(at.peek(), by);
        }}
        onSet={set}
        onBack={() => {
          plan.measured.value = points.slice(0, -1);
        }}
        onGiveUp={() => plan.take('move')}
      />
    </g>
  );
}
