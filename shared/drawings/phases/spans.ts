/** What stands above and below the lanes: stages and changes, intervals, intergreens, the axis. */
import type { Junction, Stage } from '../../layout/sites.ts';
import { element, group, hint, through, words } from '../svg.ts';
import { axisStep, firstThatFits, SMALL, timeText, widthOf } from '../text.ts';
import type { PhaseChart } from './chart.ts';
import type { Intergreen, StageSpan } from './stages.ts';

export const HEADER = 48;
export const AXIS = 34;
export const GREENS = 26;

export const SPAN_RULES = `
.aw-stage rect{fill:var(--aw-key)}
.aw-boundary{stroke:var(--aw-line);stroke-dasharray:2 4;fill:none}
.aw-gap{fill:none;stroke:var(--aw-ink-soft);stroke-width:1.5;stroke-dasharray:3 3}
.aw-mark circle{fill:var(--aw-ground);stroke:var(--aw-ink);stroke-width:1.5}
`;

/** A note beneath the chart; `mark` stands where it belongs. */
export interface Note {
  readonly mark: string;
  readonly text: string;
}

/** The boxes above a junction's lanes: stages filled, the changes between them open. */
export function drawStages(chart: PhaseChart, top: number): string {
  const { site } = chart.site;
  if (site.kind !== 'junction') return '';
  return chart.stages
    .map((span) => {
      const stage = site.stages[span.stage];
      const name = stage === undefined ? '' : stageName(site, stage);
      const isStage = span.is === 'stage';
      const number = `Stage ${span.stage + 1}`;
      const lines = isStage
        ? [`${number}, ${name}`, number, String(span.stage + 1)]
        : [`change to ${span.stage + 1}`, `to ${span.stage + 1}`];
      const full = isStage ? `${number}, ${name}` : `Change to stage ${span.stage + 1}, ${name}`;
      return drawSpan(chart, span, { top, lines, full, kind: span.is });
    })
    .join('');
}

/** Its own name, or those of its phases. */
export function stageName(site: Junction, stage: Stage): string {
  const name = (id: string): string => site.phases.find((phase) => phase.id === id)?.name ?? id;
  return stage.name ?? stage.phases.map(name).join(' and ');
}

interface SpanWords {
  readonly top: number;
  readonly lines: readonly string[];
  readonly full: string;
  readonly kind: string;
}

function drawSpan(
  chart: PhaseChart,
  span: Pick<StageSpan, 'first' | 'last'>,
  { top, lines, full, kind }: SpanWords,
): string {
  const { geometry, cycle } = chart;
  const x = geometry.rows[span.first]?.x ?? 0;
  const end = geometry.rows[span.last]?.xEnd ?? x;
  const width = end - x;
  const ms = (cycle.rows[span.last]?.to ?? 0) - (cycle.rows[span.first]?.from ?? 0);
  const waits = cycle.rows.slice(span.first, span.last + 1).some((row) => row.wait !== null);
  const name = firstThatFits(lines, width - 4, SMALL);
  const time =
    ms === 0
      ? null
      : firstThatFits([waits ? `${timeText(ms)} +` : timeText(ms), timeText(ms).replace(' s', '')], width - 2, SMALL);
  const middle = x + width / 2;
  return group(
    { class: `aw-${kind}`, 'data-first': chart.cycle.rows[span.first]?.row ?? 0, 'data-ms': ms },
    hint(`${full}, ${timeText(ms)}${waits ? ' or more' : ''}`),
    element('rect', { x: x + 0.5, y: top, width: Math.max(0, width - 2), height: HEADER - 8, fill: 'none', rx: 4 }),
    kind === 'stage' ? '' : element('path', { class: 'aw-line', d: bracket(x, end - 1, top + HEADER - 8) }),
    name === null
      ? ''
      : words(name, {
          x: middle,
          y: top + 12,
          anchor: 'middle',
          class: `aw-small${kind === 'stage' ? '' : ' aw-soft'}`,
        }),
    time === null ? '' : words(time, { x: middle, y: top + 29, anchor: 'middle', class: 'aw-small' }),
  );
}

function bracket(from: number, to: number, foot: number): string {
  return through([
    [from + 0.5, foot - 8],
    [from + 0.5, foot],
    [to, foot],
    [to, foot - 8],
  ]);
}

/** Sites without stages: the name of each interval, or a number that a note explains. */
export function drawIntervals(chart: PhaseChart, top: number, notes: Note[]): string {
  const { cycle, geometry, site } = chart;
  return cycle.rows
    .map((row, at) => {
      // Of a flash the bars say all.
      const label = cycle.is === 'flash' ? '' : (site.rowLabels[row.row] ?? '');
      const place = geometry.rows[at];
      const width = (place?.xEnd ?? 0) - (place?.x ?? 0);
      const lines = [label];
      if (widthOf(label, SMALL) > width - 8) {
        const mark = notes.find((note) => note.text === label)?.mark ?? String(notes.length + 1);
        if (!notes.some((note) => note.text === label)) notes.push({ mark, text: label });
        lines.push(mark);
      }
      return drawSpan(chart, { first: at, last: at }, { top, lines, full: label, kind: 'interval' });
    })
    .join('');
}

export interface PlacedGreen {
  readonly of: Intergreen;
  readonly x: number;
  readonly xEnd: number;
  readonly text: string;
  readonly xText: number;
  readonly line: number;
}

/** Intergreens on as few lines as let each be read; the text stands at the right of its span, else at the left. */
export function placeIntergreens(chart: PhaseChart): PlacedGreen[] {
  const { geometry } = chart;
  const taken: (readonly [number, number])[][] = [];
  return chart.intergreens.map((of) => {
    const x = geometry.rows[of.begin]?.x ?? geometry.left;
    const begin = of.end === 0 || of.end > of.begin ? x : geometry.left;
    const xEnd = of.end === 0 ? geometry.right : (geometry.rows[of.end]?.x ?? geometry.right);
    const text = `${of.from.join(', ')} → ${of.to.join(', ')}  ${timeText(of.ms)}`;
    const width = widthOf(text, SMALL);
    const xText = xEnd + 8 + width <= chart.width - 16 ? xEnd + 8 : begin - 8 - width;
    const span = [Math.min(begin, xText) - 6, Math.max(xEnd, xText + width) + 6] as const;
    let line = taken.findIndex((spans) => spans.every(([from, to]) => to <= span[0] || from >= span[1]));
    if (line < 0) line = taken.push([]) - 1;
    taken[line]?.push(span);
    return { of, x: begin, xEnd, text, xText, line };
  });
}

export function drawIntergreens(placed: readonly PlacedGreen[], top: number): string {
  return placed
    .map(({ of, x, xEnd, text, xText, line }) => {
      const y = top + line * GREENS + GREENS / 2;
      const arrow = `${through([
        [x, y],
        [xEnd, y],
      ])} ${through([
        [x, y - 5],
        [x, y + 5],
      ])} ${through([
        [xEnd - 6, y - 5],
        [xEnd - 0.5, y],
        [xEnd - 6, y + 5],
      ])}`;
      return group(
        { class: 'aw-intergreen', 'data-from': of.from.join(' '), 'data-to': of.to.join(' '), 'data-ms': of.ms },
        hint(`Intergreen from ${of.from.join(', ')} to ${of.to.join(', ')}: ${timeText(of.ms)}`),
        element('path', { class: 'aw-ink', d: arrow, 'stroke-width': 1.5 }),
        words(text, { x: xText, y, class: 'aw-small' }),
      );
    })
    .join('');
}

export function drawAxis(chart: PhaseChart, top: number): string {
  const { geometry } = chart;
  const { left, right, total, pixelsPerMs } = geometry;
  const base = element('line', { class: 'aw-line', x1: left, x2: right, y1: top, y2: top });
  // Nothing drawn lasts a planned time.
  if (pixelsPerMs === 0) return '';
  const step = axisStep(pixelsPerMs, 64);
  const marks = Array.from({ length: Math.floor(total / step) + 1 }, (_, index) => index * step);
  let free = Number.NEGATIVE_INFINITY;
  const end = { ms: total, x: geometry.rows.at(-1)?.xLeast ?? right };
  const drawn = marks
    .filter((ms) => ms < total)
    .map((ms) => {
      const x = geometry.xOf(ms);
      const text = timeText(ms);
      const half = widthOf(text, SMALL) / 2;
      const fits = x - half >= free && x + 2 * half + 12 <= end.x;
      if (fits) free = x + half + 6;
      return tick(x, top, fits ? text : null);
    });
  return group({ class: 'aw-axis' }, base, ...drawn, tick(end.x, top, timeText(end.ms)));
}

function tick(x: number, top: number, text: string | null): string {
  const line = element('line', { class: 'aw-line', x1: x, x2: x, y1: top, y2: top + 6 });
  return text === null ? line : line + words(text, { x, y: top + 18, anchor: 'middle', class: 'aw-small' });
}
