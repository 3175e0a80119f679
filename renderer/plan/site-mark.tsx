import { useComputed } from '@preact/signals';
import { useRef } from 'preact/hooks';
import { findingsOfSite } from '../findings/places.ts';
import { usePanel } from '../model/context.ts';
import type { OpenSite } from '../model/document.ts';
import { runningOf } from '../model/running.ts';
import { countdown } from '../model/time.ts';
import type { Label } from './labels.ts';
import type { SiteMarks } from './marks.ts';
import type { Moving } from './moving.ts';

interface Props {
  readonly site: OpenSite;
  readonly mark: SiteMarks;
  readonly label: Label;
  /** Height of the name's letters, mm. */
  readonly size: number;
  readonly hasName: boolean;
  /** Whether the running interval stands below the name. */
  readonly hasFigures: boolean;
  readonly isAtHand: boolean;
  readonly moving: Moving;
  /** mm of the baseboard in one px of the screen. */
  readonly mm: number;
}

/** px that a pointer may stray in a press. */
const STILL = 5;

/** The name of a site on the plan, what runs there, and the place to press to take it in hand. */
export function SiteMark({ site, mark, label, size, hasName, hasFigures, isAtHand, moving, mm }: Props) {
  const { model } = usePanel();
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
  const going = moving.now.value;
  const way = going?.site === site.id ? `translate(${going.by.x} ${going.by.y})` : '';
  const from = useRef<{ readonly x: number; readonly y: number } | null>(null);
  return (
    <g class={isAtHand ? 'site at-hand' : 'site'} transform={way}>
      {/* biome-ignore lint/a11y/useSemanticElements: an SVG has no button of its own */}
      <g
        class="reach"
        role="button"
        tabindex={0}
        aria-pressed={isAtHand}
        aria-label={`${site.names.name}, take in hand`}
        aria-description="Arrow keys move it."
        onPointerDown={(event) => {
          if (event.button !== 0 || !moving.canMove(site.id)) return;
          from.current = { x: event.clientX, y: event.clientY };
          event.currentTarget.setPointerCapture(event.pointerId);
        }}
        onPointerMove={(event) => {
          const start = from.current;
          if (!start) return;
          const by = { x: (event.clientX - start.x) * mm, y: (event.clientY - start.y) * mm };
          // A press that trembles is no move.
          if (moving.now.peek()?.site === site.id || Math.hypot(by.x, by.y) > STILL * mm) moving.to(site.id, by);
        }}
        onPointerUp={() => {
          from.current = null;
          void moving.stand();
        }}
        onPointerCancel={() => {
          from.current = null;
          moving.now.value = null;
        }}
        onClick={choose}
        onKeyDown={(event) => {
          if (moving.key(site.id, event.key)) {
            event.preventDefault();
            choose();
          }
          if (event.key !== 'Enter' && event.key !== ' ') return;
          event.preventDefault();
          choose();
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
