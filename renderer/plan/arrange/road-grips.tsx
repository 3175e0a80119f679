import { usePanel } from '../../model/context.ts';

/** Roads can be pressed while the plan is arranged; the list beside the plan does the same for the keyboard. */
export function RoadGrips() {
  const { model } = usePanel();
  const { plan } = model;
  if (!plan.arranging.value || plan.tool.value !== 'move') return null;
  const roads = model.open.value.layout?.roads ?? [];
  return (
    <g class="road-grips">
      {roads.map(({ id, points, width }) => (
        // biome-ignore lint/a11y/noStaticElementInteractions: the list beside the plan does it for the keyboard
        <polyline
          key={id}
          class={plan.road.value === id ? 'road-grip chosen' : 'road-grip'}
          data-road={id}
          points={points.map(([x, y]) => `${x},${y}`).join(' ')}
          stroke-width={width}
          onClick={() => plan.choose(id)}
        />
      ))}
    </g>
  );
}
