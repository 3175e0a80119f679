import { useSignal } from '@preact/signals';
import { useEffect, useLayoutEffect, useMemo, useRef } from 'preact/hooks';
import { phaseChart, phaseChartGeometry } from '../../shared/drawings/phase-chart.ts';
import type { ChartSite } from '../../shared/drawings/phases/source.ts';
import { timeText } from '../../shared/workbench/words.ts';
import { usePanel } from '../model/context.ts';
import type { OpenSite } from '../model/document.ts';
import { runningOf } from '../model/running.ts';
import { stepFor, stepped } from '../model/time.ts';

interface Props {
  readonly site: OpenSite;
  readonly chart: ChartSite;
  readonly width: number;
}

interface Grip {
  readonly dial: number;
  readonly row: string;
  readonly value: number;
  readonly least: number;
  readonly greatest: number;
}

interface Drag extends Grip {
  readonly from: number;
  readonly pixelsPerMs: number;
}

/** As large as a finger, px. */
const LINE = 44;
const KEYS: Readonly<Record<string, number>> = {
  ArrowRight: 1,
  ArrowUp: 1,
  ArrowLeft: -1,
  ArrowDown: -1,
  PageUp: 5,
  PageDown: -5,
};

/** The phase chart with a cursor where the board is, and handles that turn its dials. */
export function LiveChart({ site, chart, width }: Props) {
  const { model } = usePanel();
  const frame = useRef<HTMLDivElement>(null);
  const drag = useRef<Drag | null>(null);
  /** The handle that has the keyboard: the drawing is made anew with each time. */
  const held = useRef<Grip | null>(null);
  const told = useSignal<string | null>(null);
  const board = model.board(site.board);
  const canTurn = board.runsLayout.value;
  const times = chart.dials.join(' ');
  // The chart is another object each time; its times say whether it changed.
  const svg = useMemo(
    () => phaseChart(chart, { width, isLive: true, bare: true, dialLine: LINE }),
    [chart.id, chart.program, times, width],
  );
  const geometry = useMemo(() => phaseChartGeometry(chart, width), [chart.id, chart.program, times, width]);

  useLayoutEffect(() => {
    const grip = held.current;
    if (!grip || !svg) return;
    frame.current?.querySelector<SVGElement>(handleOf(grip))?.focus();
  }, [svg]);

  useEffect(
    () =>
      model.wall.subscribe((wall) => {
        const cursor = frame.current?.querySelector('.aw-cursor');
        const now = runningOf(site, board, wall);
        const runs = now.is === 'timed' || now.is === 'open';
        const x = runs ? geometry.cursorX(now.row, now.elapsed) : null;
        cursor?.setAttribute('transform', `translate(${(x ?? -20).toFixed(1)} 0)`);
      }),
    [model, site, board, geometry, svg],
  );

  const turn = (grip: Grip, ms: number): void => {
    const value = Math.min(grip.greatest, Math.max(grip.least, ms));
    told.value = `${chart.dialNames[grip.dial] ?? ''}: ${timeText(value)}, from ${timeText(grip.least)} to ${timeText(grip.greatest)}`;
    void model.nudges.nudge({ board: site.board, site: site.number, dial: grip.dial }, value);
  };

  return (
    <>
      {/* biome-ignore lint/a11y/useSemanticElements: no set of fields, but a drawing with handles */}
      <div
        ref={frame}
        role="group"
        aria-label={`Phases of ${chart.name}`}
        class={canTurn ? 'live-chart' : 'live-chart still'}
        // shared/drawings makes the text and escapes every name in it.
        dangerouslySetInnerHTML={{ __html: svg }}
        onPointerDown={(event) => {
          const grip = gripAt(event.target);
          if (!grip || !canTurn || event.button !== 0) return;
          event.preventDefault();
          event.currentTarget.setPointerCapture(event.pointerId);
          const shown = frame.current?.querySelector('svg');
          const scale = shown ? shown.getBoundingClientRect().width / shown.viewBox.baseVal.width : 1;
          held.current = grip;
          drag.current = { ...grip, from: event.clientX, pixelsPerMs: geometry.pixelsPerMs * scale };
          turn(grip, grip.value);
        }}
        onPointerMove={(event) => {
          const now = drag.current;
          if (!now || now.pixelsPerMs <= 0) return;
          const wanted = now.value + (event.clientX - now.from) / now.pixelsPerMs;
          const step = stepFor(Math.max(0, wanted));
          turn(now, Math.round(wanted / step) * step);
        }}
        onPointerUp={() => {
          drag.current = null;
        }}
        onPointerCancel={() => {
          drag.current = null;
        }}
        onFocusIn={(event) => {
          held.current = gripAt(event.target);
        }}
        onFocusOut={(event) => {
          // Where the focus went, unless the drawing was only made anew.
          if (event.relatedTarget !== null) held.current = gripAt(event.relatedTarget);
        }}
        onKeyDown={(event) => {
          const grip = gripAt(event.target);
          const by = KEYS[event.key];
          if (!grip || by === undefined || !canTurn) return;
          event.preventDefault();
          event.stopPropagation();
          held.current = grip;
          turn(grip, stepped(grip.value, by, { min: grip.least, max: grip.greatest }));
        }}
      />
      <p class="live-told" aria-live="polite">
        {told.value ??
          (canTurn
            ? 'Drag a handle, or take it with the tabulator and use the arrow keys.'
            : 'Planned times. Once a board runs this layout, the handles turn its dials.')}
      </p>
    </>
  );
}

function handleOf({ dial, row }: Grip): string {
  return `.aw-handle[data-dial="${dial}"][data-row="${row}"]`;
}

/** The handle under an element; null when it is on none. */
function gripAt(target: EventTarget | null): Grip | null {
  const handle = target instanceof Element ? target.closest<SVGElement>('.aw-handle') : null;
  if (!handle) return null;
  const { dial, row = '', value, least, greatest } = handle.dataset;
  return { dial: Number(dial), row, value: Number(value), least: Number(least), greatest: Number(greatest) };
}
