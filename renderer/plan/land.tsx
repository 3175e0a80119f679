import { UnderlayPicture } from '../underlay/underlay.tsx';
import type { Drawing } from './drawing.ts';
import type { Moving } from './moving.ts';
import { Roads } from './roads.tsx';

interface Props {
  readonly drawing: Drawing;
  readonly moving: Moving;
}

/** The baseboard with the picture under the plan, the roads and their names. */
export function Land({ drawing, moving }: Props) {
  const { ground, marks, sizes, mm, roadLabels } = drawing;
  const size = sizes.road * mm;
  return (
    <>
      <rect class="verge" width={ground.width} height={ground.depth} rx={10} />
      <g clip-path="url(#baseboard)">
        <clipPath id="baseboard">
          <rect width={ground.width} height={ground.depth} rx={10} />
        </clipPath>
        <UnderlayPicture />
        <Roads ground={ground} marks={marks} moving={moving} />
        {roadLabels.map(({ id, name, label }) => {
          const { x, y } = label.at;
          return (
            <text
              key={id}
              class="street"
              x={x}
              y={y}
              dy="0.35em"
              font-size={size}
              stroke-width={size * 0.7}
              transform={`rotate(${label.turn} ${x} ${y})`}
            >
              {name}
            </text>
          );
        })}
      </g>
    </>
  );
}
