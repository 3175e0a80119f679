import { useRef } from 'preact/hooks';
import { usePanel } from '../../model/context.ts';
import { FINE, STEP } from '../moving.ts';
import { STRAY } from '../use-gestures.ts';
import type { Point } from '../vectors.ts';
import { ARROWS, pointOf } from './pointer.ts';

interface Props {
  readonly class: string;
  readonly at: Point;
  readonly label: string;
  readonly description: string;
  readonly sign?: string;
  onDrag(to: Point): void;
  /** By an arrow key, mm. */
  onStep?(by: Point): void;
  onStand(): void;
  onGiveUp(): void;
  /** Enter, or a press without a drag. */
  onPress(): void;
  onDelete?(): void;
}

/** px: what is pressed, and what is seen. */
const GRIP = 22;
const SEEN = 10;

/** Something on the plan that is dragged, as large on the screen at any zoom. */
export function Handle(props: Props) {
  const { model } = usePanel();
  const { camera } = model.plan;
  const { at, sign } = props;
  const from = useRef<{ x: number; y: number; hasMoved: boolean } | null>(null);
  const px = camera.scale.value;
  return (
    // biome-ignore lint/a11y/useSemanticElements: an SVG has no button of its own
    <g
      class={`handle ${props.class}`}
      role="button"
      tabindex={0}
      aria-label={props.label}
      aria-description={props.description}
      data-drags="handle"
      onPointerDown={(event) => {
        if (event.button !== 0) return;
        from.current = { x: event.clientX, y: event.clientY, hasMoved: false };
        event.currentTarget.setPointerCapture(event.pointerId);
      }}
      onPointerMove={(event) => {
        const start = from.current;
        if (!start) return;
        if (!start.hasMoved && Math.hypot(event.clientX - start.x, event.clientY - start.y) <= STRAY) return;
        start.hasMoved = true;
        props.onDrag(pointOf(event, camera));
      }}
      onPointerUp={() => {
        const start = from.current;
        from.current = null;
        if (start?.hasMoved) props.onStand();
        else if (start) props.onPress();
      }}
      onPointerCancel={() => {
        from.current = null;
        props.onGiveUp();
      }}
      onKeyDown={(event) => {
        const arrow = ARROWS[event.key];
        const length = event.shiftKey ? FINE : STEP;
        if (arrow && props.onStep) props.onStep({ x: arrow.x * length, y: arrow.y * length });
        else if (event.key === 'Enter' || event.key === ' ') props.onPress();
        else if (event.key === 'Escape') props.onGiveUp();
        else if ((event.key === 'Delete' || event.key === 'Backspace') && props.onDelete) props.onDelete();
        else return;
        event.preventDefault();
      }}
    >
      <circle class="grip" cx={at.x} cy={at.y} r={GRIP * px} />
      <circle class="knob" cx={at.x} cy={at.y} r={SEEN * px} stroke-width={3 * px} />
      {sign && (
        <text class="sign" x={at.x} y={at.y} dy="0.36em" font-size={18 * px}>
          {sign}
        </text>
      )}
    </g>
  );
}
