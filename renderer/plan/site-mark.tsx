import { type ReadonlySignal, useComputed } from '@preact/signals';
import { useRef } from 'preact/hooks';
import { findingsOfSite } from '../findings/places.ts';
import { usePanel } from '../model/context.ts';
import type { OpenSite } from '../model/document.ts';
import { runningOf } from '../model/running.ts';
import { countdown } from '../model/time.ts';
import type { Label } from './labels.ts';
import type { SiteMarks } from './marks.ts';
import type { Moving } from './moving.ts';
import { headId } from './rove.ts';
import { STRAY } from './use-gestures.ts';

interface Props {
  readonly site: OpenSite;
  readonly mark: SiteMarks;
  readonly label: Label;
  /** Height of the name's letters, mm. */
  readonly size: number;
  readonly hasName: boolean;
  /** Whether the running interval stands below the name. */
  readonly hasFigures: boolean;
  readonly isAtHand: ReadonlySignal<boolean>;
  readonly moving: Moving;
}

/** The name of a site on the plan, what runs there, and the place to press to take it in hand. */
export function SiteMark({ site, mark, label, size, hasName, hasFigures, isAtHand, moving }: Props) {
  const { model } = usePanel();
  const { plan } = model;
  const board = model.board(site.board);
  const now = useComputed(() => runningOf(site, board, model.wall.value));
  const figure = useComputed(() => {
    const running = now.value;
    if (running.is === 'timed') {
      const { figure: left, unit } = countdown(running.left);
      return `${left} ${unit}`;
    }
    if (running.is === 'flashing') return `${Math.round(running.perMinute)} a minute`;
    if (running.is === 'open') return running.left > 0 ? 'running' : 'waiting';
    return running.is === 'fault' ? 'fault' : '';
  });
  const findings = findingsOfSite(model.open.value.findings, site.index);
  const reach = Math.max(mark.box + 30, mark.crossing ? mark.crossing.across * 0.75 : 0, 60);
  const choose = (): void => model.choose(site.id);
  const way = useComputed(() => moving.shift(site.id));
  const look = useComputed(() => (isAtHand.value ? 'site at-hand' : 'site'));
  const pressed = useComputed(() => (isAtHand.value ? 'true' : 'false'));
  const drags = useComputed(() => (plan.arranging.value ? 'site' : undefined));
  const described = useComputed(() =>
    plan.arranging.value
      ? 'Arrow keys move it by 10 mm, with Shift by 1 mm. Comma and full stop turn it by 15 degrees, with Shift by 1.'
      : 'Arrow keys go to its heads.',
  );
  const from = useRef<{ readonly x: number; readonly y: number } | null>(null);
  return (
    <g class={look} transform={way}>
      {/* biome-ignore lint/a11y/useSemanticElements: an SVG has no button of its own */}
      <g
        class="reach"
        id={`site-${site.id}`}
        role="button"
        tabindex={0}
        aria-pressed={pressed}
        aria-label={`${site.names.name}, take in hand`}
        aria-description={described}
        data-drags={drags}
        onPointerDown={(event) => {
          if (event.button !== 0 || !plan.arranging.peek() || plan.tool.peek() !== 'move') return;
          from.current = { x: event.clientX, y: event.clientY };
          event.currentTarget.setPointerCapture(event.pointerId);
        }}
        onPointerMove={(event) => {
          const start = from.current;
          if (!start) return;
          const px = { x: event.clientX - start.x, y: event.clientY - start.y };
          const mm = plan.camera.scale.peek();
          // A press that trembles is no move.
          const isOnItsWay = moving.now.peek()?.site === site.id || Math.hypot(px.x, px.y) > STRAY;
          if (isOnItsWay) moving.drag(site.id, { x: px.x * mm, y: px.y * mm });
        }}
        onPointerUp={() => {
          if (from.current) void moving.stand();
          from.current = null;
        }}
        onPointerCancel={() => {
          from.current = null;
          moving.giveUp();
        }}
        onClick={choose}
        onKeyDown={(event) => {
          const { key } = event;
          if (key === 'Enter' || key === ' ') choose();
          else if (plan.arranging.peek() && moving.key(site.id, key, event.shiftKey)) choose();
          else if (plan.arranging.peek() && key === 'Escape' && moving.now.peek()) moving.giveUp();
          else if (!plan.arranging.peek() && (key === 'ArrowDown' || key === 'ArrowRight')) {
            document.getElementById(headId(site.id, 0))?.focus();
          } else return;
          event.preventDefault();
        }}
      >
        <circle cx={mark.place.x} cy={mark.place.y} r={reach} />
        {hasName && (
          <rect
            class="label-ground"
            x={label.box.left - size * 0.3}
            y={label.box.top}
            width={label.box.right - label.box.left + size * 0.6}
            height={label.box.bottom - label.box.top}
            rx={size * 0.3}
          />
        )}
      </g>
      {hasName && (
        <text class="name" x={label.x} y={label.y} dy="0.95em" font-size={size}>
          {site.names.name}
          {findings.length > 0 && <tspan class="finding-flag"> ⚑ {findings.length}</tspan>}
        </text>
      )}
      {hasFigures && (
        <text class="figure" x={label.x} y={label.y + size * 1.15} dy="0.95em" font-size={size}>
          {figure}
        </text>
      )}
    </g>
  );
}
