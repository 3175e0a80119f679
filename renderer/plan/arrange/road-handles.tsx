import { useMemo } from 'preact/hooks';
import { takePoint } from '../../../shared/layout/plan-edit/roads.ts';
import { usePanel } from '../../model/context.ts';
import type { Point } from '../vectors.ts';
import { Bending } from './bending.ts';
import { Handle } from './handle.tsx';

/** The road at hand: its points can be dragged, and more be drawn out of its middle. */
export function RoadHandles() {
  const { model } = usePanel();
  const { plan } = model;
  const bending = useMemo(() => new Bending(model), [model]);
  const { layout } = model.open.value;
  const road = layout?.roads?.find(({ id }) => id === plan.road.value);
  if (!layout || !road) return null;
  const points = bending.points(road.id, road.points);
  const said = ({ x, y }: Point): string => `at ${Math.round(x)}, ${Math.round(y)} mm`;
  return (
    <g class="road-handles">
      <polyline class="road-line" points={points.map(({ x, y }) => `${x},${y}`).join(' ')} />
      {road.points.slice(1).map(([x, y], index) => {
        const before = road.points[index] ?? [x, y];
        const at = { x: (before[0] + x) / 2, y: (before[1] + y) / 2 };
        const bend = { road: road.id, index: index + 1, isNew: true };
        if (bending.now.value) return null;
        return (
          <Handle
            key={`new ${index}`}
            class="between"
            sign="+"
            at={at}
            label={`${road.name}: another point between ${index + 1} and ${index + 2}`}
            description="Enter puts it in; then arrow keys move it."
            onDrag={(to) => bending.drag({ ...bend, at: to })}
            onStand={() => void bending.stand()}
            onGiveUp={() => bending.giveUp()}
            onPress={() => {
              plan.choose(road.id, index + 1);
              bending.now.value = { ...bend, at };
              void bending.stand();
            }}
          />
        );
      })}
      {points.map((at, index) => {
        const bend = { road: road.id, index, isNew: false, at };
        return (
          <Handle
            key={index}
            class={plan.point.value === index ? 'point chosen' : 'point'}
            at={at}
            label={`${road.name}, point ${index + 1} of ${points.length}, ${said(at)}`}
            description="Arrow keys move it by 10 mm, with Shift by 1 mm. Delete takes it out."
            onDrag={(to) => {
              plan.point.value = index;
              bending.drag({ ...bend, at: to });
            }}
            onStep={(by) => bending.step(bend, by)}
            onStand={() => void bending.stand()}
            onGiveUp={() => bending.giveUp()}
            onPress={() => plan.choose(road.id, index)}
            onDelete={() => void plan.make(takePoint(layout, road.id, index))}
          />
        );
      })}
    </g>
  );
}
