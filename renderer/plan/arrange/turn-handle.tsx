import { useComputed } from '@preact/signals';
import { useRef } from 'preact/hooks';
import { usePanel } from '../../model/context.ts';
import type { Moving } from '../moving.ts';
import type { Box } from '../shapes.ts';
import { type Point, plus, towards } from '../vectors.ts';
import { pointOf } from './pointer.ts';

/** From the middle of the site to the handle, px; and what is pressed of it. */
const ARM = 96;
const GRIP = 24;
const SEEN = 13;
const KEYS: Readonly<Record<string, string>> = {
  ArrowLeft: ',',
  ArrowDown: ',',
  ArrowRight: '.',
  ArrowUp: '.',
  ',': ',',
  '<': ',',
  '.': '.',
  '>': '.',
};

function isIn({ x, y }: Point, { left, top, right, bottom }: Box, edge: number): boolean {
  return x > left + edge && x < right - edge && y > top + edge && y < bottom - edge;
}

/** The site at hand is turned by it, about its middle. */
export function TurnHandle({ moving }: { readonly moving: Moving }) {
  const { model } = usePanel();
  const { plan } = model;
  const turning = useRef(false);
  const site = model.siteAtHand.value;
  const id = site?.id ?? '';
  const way = useComputed(() => moving.transform(id));
  const place = site && moving.place(site.id);
  const px = plan.camera.scale.value;
  const turn = useComputed(() => {
    const now = moving.now.value;
    const by = now?.site === id ? (now.turn ?? 0) : 0;
    const stood = model.open.value.layout ? (plan.placeOf(id)?.turn ?? 0) : 0;
    return (Math.round(stood + by) + 360) % 360;
  });
  const spoken = useComputed(() => `${turn.value} degrees`);
  if (!site || !place) return null;
  // At the edge of what is seen it stands on another side.
  const reach = (aside: number) => plus(place, towards(place.turn + aside), ARM * px);
  const aside = [0, 180, 90, 270].find((it) => isIn(reach(it), plan.camera.box.value, GRIP * px)) ?? 0;
  const at = reach(aside);
  return (
    <g
      class="handle turns"
      transform={way}
      role="slider"
      tabindex={0}
      aria-label={`Turn of ${site.names.name}`}
      aria-description="Arrow keys turn it by 15 degrees, with Shift by 1."
      aria-valuemin={0}
      aria-valuemax={359}
      aria-valuenow={turn}
      aria-valuetext={spoken}
      data-drags="turn"
      onPointerDown={(event) => {
        if (event.button !== 0) return;
        turning.current = true;
        event.currentTarget.setPointerCapture(event.pointerId);
      }}
      onPointerMove={(event) => {
        if (turning.current) moving.turnTowards(site.id, pointOf(event, plan.camera), aside);
      }}
      onPointerUp={() => {
        turning.current = false;
        void moving.stand();
      }}
      onPointerCancel={() => {
        turning.current = false;
        moving.giveUp();
      }}
      onKeyDown={(event) => {
        const key = KEYS[event.key];
        if (event.key === 'Escape' && moving.now.peek()) moving.giveUp();
        else if (!key || !moving.key(site.id, key, event.shiftKey)) return;
        event.preventDefault();
      }}
    >
      <line class="arm" x1={place.x} y1={place.y} x2={at.x} y2={at.y} stroke-width={3 * px} />
      <circle class="grip" cx={at.x} cy={at.y} r={GRIP * px} />
      <circle class="knob" cx={at.x} cy={at.y} r={SEEN * px} stroke-width={3 * px} />
      <path
        class="sign"
        transform={`translate(${at.x} ${at.y}) rotate(${place.turn}) scale(${px})`}
        d="M-6 1 A6 6 0 1 1 3 5 M3 5 L8 4 M3 5 L4 0"
      />
    </g>
  );
}
