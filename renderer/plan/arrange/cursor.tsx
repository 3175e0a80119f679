import { type ReadonlySignal, useComputed } from '@preact/signals';
import { usePanel } from '../../model/context.ts';
import { FINE, STEP } from '../moving.ts';
import type { Point } from '../vectors.ts';
import { ARROWS, pointOf } from './pointer.ts';

interface Props {
  readonly id: string;
  /** What a press sets, such as "Point of the road". */
  readonly label: string;
  readonly description: string;
  /** Where the next point would stand. */
  readonly at: ReadonlySignal<Point>;
  /** The pointer or a key is here; it may snap. */
  onMove(to: Point): void;
  onStep(by: Point): void;
  onSet(): void;
  onBack(): void;
  onGiveUp(): void;
}

const GRIP = 22;
const SEEN = 12;

/** Sets points on the plan: the pointer anywhere on it, or the cross with arrow keys and Enter. */
export function PlanCursor({ id, label, description, at, ...does }: Props) {
  const { model } = usePanel();
  const { camera } = model.plan;
  const px = camera.scale.value;
  const { left, top, right, bottom } = camera.box.value;
  const place = useComputed(() => `translate(${at.value.x} ${at.value.y})`);
  const told = useComputed(
    () => `${label}: ${Math.round(at.value.x)}, ${Math.round(at.value.y)} mm${said(model.plan.snapped.value)}`,
  );
  return (
    <g class="plan-cursor">
      {/* biome-ignore lint/a11y/noStaticElementInteractions: the cross does the same for the keyboard */}
      <rect
        class="sheet-of-glass"
        x={left}
        y={top}
        width={right - left}
        height={bottom - top}
        onPointerMove={(event) => does.onMove(pointOf(event, camera))}
        onClick={(event) => {
          does.onMove(pointOf(event, camera));
          // Enter and Backspace go on from here.
          document.getElementById(id)?.focus();
          does.onSet();
        }}
      />
      {/* biome-ignore lint/a11y/useSemanticElements: an SVG has no button of its own */}
      <g
        class="handle cross"
        id={id}
        role="button"
        tabindex={0}
        aria-label={told}
        aria-description={description}
        transform={place}
        onKeyDown={(event) => {
          const arrow = ARROWS[event.key];
          const length = event.shiftKey ? FINE : STEP;
          if (arrow) does.onStep({ x: arrow.x * length, y: arrow.y * length });
          else if (event.key === 'Enter' || event.key === ' ') does.onSet();
          else if (event.key === 'Backspace' || event.key === 'Delete') does.onBack();
          else if (event.key === 'Escape') does.onGiveUp();
          else return;
          event.preventDefault();
        }}
      >
        <circle class="grip" r={GRIP * px} />
        <path
          class="hair"
          d={`M${-SEEN * px} 0 H${SEEN * px} M0 ${-SEEN * px} V${SEEN * px}`}
          stroke-width={2.5 * px}
        />
      </g>
    </g>
  );
}

function said(snapped: string): string {
  return snapped === '' ? '' : `, ${snapped}`;
}
