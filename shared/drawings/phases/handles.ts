/** The dials beneath the chart: one line each, with a handle at the end of every interval that it times. */
import { element, group, hint, through, words } from '../svg.ts';
import { shorten, TEXT, timeText } from '../text.ts';
import type { Handle, PhaseChart } from './chart.ts';

export const HANDLE_RULES = `
.aw-track{stroke:var(--aw-line);stroke-width:2;fill:none}
.aw-grip{fill:var(--aw-ink);stroke:var(--aw-ground);stroke-width:2}
.aw-hit{fill:none;pointer-events:all}
.aw-live .aw-handle{cursor:ew-resize}
.aw-handle:focus-visible{outline:3px solid var(--aw-ink);outline-offset:2px}
`;

export interface HandleLook {
  readonly top: number;
  /** Height of a line, px: 32, or as large as a finger. */
  readonly line: number;
  readonly isLive: boolean;
}

/** Dials that time a row of the cycle, in the order of their first use. */
export function shownDials(chart: PhaseChart): number[] {
  return [...new Set(chart.handles.map((handle) => handle.dial))];
}

export function drawHandles(chart: PhaseChart, look: HandleLook): string {
  return shownDials(chart)
    .map((dial, index) => drawDial(chart, dial, { ...look, top: look.top + index * look.line }))
    .join('');
}

function drawDial(chart: PhaseChart, dial: number, look: HandleLook): string {
  const handles = chart.handles.filter((handle) => handle.dial === dial);
  const [first] = handles;
  if (first === undefined) return '';
  const y = look.top + look.line / 2;
  const { left, right } = chart.geometry;
  return group(
    { class: 'aw-dial', 'data-dial': dial },
    words(shorten(first.name, left - 16 - 10, TEXT), { x: 16, y }, hint(first.name)),
    ...handles.map((handle, index) => drawHandle(chart, handle, handles[index + 1]?.xFrom ?? right, { y, look })),
    words(limitsText(first), { x: right + 12, y, class: 'aw-small aw-soft' }),
  );
}

function limitsText({ value, least, greatest }: Handle): string {
  return `${timeText(value)} (${timeText(least)} to ${timeText(greatest)})`;
}

/** `room` is where the next interval of the same dial begins: its track starts there. */
function drawHandle(
  chart: PhaseChart,
  handle: Handle,
  room: number,
  at: { readonly y: number; readonly look: HandleLook },
): string {
  const { y, look } = at;
  const row = chart.cycle.rows[handle.at]?.row ?? 0;
  const far = Math.max(handle.x, Math.min(handle.xGreatest, room - 4));
  const cut = handle.xGreatest > far || handle.value + handle.least === 0;
  const beyond = chart.geometry.pixelsPerMs * (handle.greatest - handle.least) > far - handle.xLeast + 1;
  const track = [
    through([
      [handle.xLeast, y - 6],
      [handle.xLeast, y + 6],
    ]),
    through([
      [handle.xLeast, y],
      [far, y],
    ]),
    beyond || cut
      ? through([
          [far - 5, y - 5],
          [far, y],
          [far - 5, y + 5],
        ])
      : through([
          [far, y - 6],
          [far, y + 6],
        ]),
  ];
  const slider = look.isLive
    ? {
        role: 'slider',
        tabindex: 0,
        'aria-label': handle.name,
        'aria-valuemin': handle.least / 1000,
        'aria-valuemax': handle.greatest / 1000,
        'aria-valuenow': handle.value / 1000,
        'aria-valuetext': timeText(handle.value),
      }
    : {};
  const hit = Math.max(44, look.line);
  return group(
    {
      class: 'aw-handle',
      'data-dial': handle.dial,
      'data-row': row,
      'data-value': handle.value,
      'data-least': handle.least,
      'data-greatest': handle.greatest,
      'data-x-from': handle.xFrom,
      'data-x': handle.x,
      'data-x-least': handle.xLeast,
      'data-x-greatest': handle.xGreatest,
      ...slider,
    },
    hint(`${handle.name}: ${timeText(handle.value)}, from ${timeText(handle.least)} to ${timeText(handle.greatest)}`),
    element('path', { class: 'aw-track', d: track.join(' ') }),
    element('path', {
      class: 'aw-grip',
      d: through(
        [
          [handle.x - 7, y],
          [handle.x, y - 9],
          [handle.x + 7, y],
          [handle.x, y + 9],
        ],
        true,
      ),
    }),
    element('rect', { class: 'aw-hit', x: handle.x - hit / 2, y: y - look.line / 2, width: hit, height: look.line }),
  );
}
