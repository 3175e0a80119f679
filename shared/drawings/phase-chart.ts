/**
 * The phase chart: one bar for each phase, head or lamp group along one cycle,
 * with stages, changes and intergreens above and below, a time axis, the dials
 * with their limits, and a cursor where the board is.
 */

import { BAR_RULES, drawLane, LANE } from './phases/bars.ts';
import { type PhaseChart, phaseChartData } from './phases/chart.ts';
import { drawBoundaries, drawGaps } from './phases/gaps.ts';
import { drawHandles, HANDLE_RULES, shownDials } from './phases/handles.ts';
import { drawKey, drawNotes, rate, spokenChart, waitNotes } from './phases/notes.ts';
import type { ChartSite } from './phases/source.ts';
import {
  AXIS,
  drawAxis,
  drawIntergreens,
  drawIntervals,
  drawStages,
  GREENS,
  HEADER,
  type Note,
  placeIntergreens,
  SPAN_RULES,
} from './phases/spans.ts';
import { element, group, through, words } from './svg.ts';
import { shorten, TITLE, timeText, widthOf } from './text.ts';
import { patterns, sheet, type Theme } from './theme.ts';

export { phaseChartData, phaseChartGeometry } from './phases/chart.ts';
export { atTimes, chartSite } from './phases/source.ts';

export interface PhaseChartOptions {
  /** px; default 1000, at least 560. */
  readonly width?: number;
  readonly theme?: Theme;
  /** Draw the dials. Default: true. */
  readonly dials?: boolean;
  /** Height of a dial's line, px; default 32. */
  readonly dialLine?: number;
  /** Handles can be focused and a cursor is there to be moved. Default: false. */
  readonly isLive?: boolean;
  /** Without styles: the page has `phaseChartRules` through `drawingStyles`. Default: false. */
  readonly bare?: boolean;
  /** Where the board is: row of the program and ms since it began. */
  readonly cursor?: { readonly row: number; readonly elapsed: number } | null;
}

export const phaseChartRules = `${BAR_RULES}${SPAN_RULES}${HANDLE_RULES}
.aw-cursor path{stroke:var(--aw-ground);stroke-width:7;stroke-linecap:round;fill:none}
.aw-cursor path+path{stroke:var(--aw-ink);stroke-width:3}
`;

const TOP = 52;

/** A whole SVG file. */
export function phaseChart(site: ChartSite, options: PhaseChartOptions = {}): string {
  const chart = phaseChartData(site, Math.max(560, options.width ?? 1000));
  const { geometry, lanes, width, id } = chart;
  const { marks, notes: waits } = waitNotes(chart);
  const notes: Note[] = [];
  const lanesTop = TOP + HEADER;
  const lanesFoot = lanesTop + lanes.length * LANE;
  const header = chart.stages.length > 0 ? drawStages(chart, TOP) : drawIntervals(chart, TOP, notes);
  // The marks of waits hang over the foot of the lanes.
  const greensTop = lanesFoot + (waits.length > 0 ? 16 : 4);
  const greens = placeIntergreens(chart);
  const greenLines = Math.max(0, ...greens.map(({ line }) => line + 1));
  const axisTop = greensTop + greenLines * GREENS + 4;
  let y = chart.cycle.total === 0 ? axisTop + 8 : axisTop + AXIS + 8;
  const parts: string[] = [];
  const line = options.dialLine ?? 32;
  if (options.dials !== false && chart.handles.length > 0) {
    parts.push(drawHandles(chart, { top: y, line, isLive: options.isLive === true }));
    y += shownDials(chart).length * line + 8;
  }
  const key = drawKey(chart, width - 32, y);
  y += key.height;
  const told = drawNotes([...waits, ...notes], width - 32, y);
  const height = y + told.height + 12;
  const title = titleOf(chart);
  return sheet(
    {
      id,
      kind: options.isLive === true ? 'phases aw-live' : 'phases',
      width,
      height,
      title,
      spoken: spokenChart(chart),
      theme: options.theme ?? 'auto',
      rules: phaseChartRules,
      bare: options.bare ?? false,
      isLive: options.isLive ?? false,
    },
    patterns(id),
    words(shownTitle(chart, width - 32), { x: 16, y: 28, class: 'aw-title' }),
    header,
    ...lanes.map((lane, index) => drawLane(chart, lane, lanesTop + index * LANE)),
    drawBoundaries(chart, lanesTop, lanesFoot),
    drawGaps(chart, lanesTop, lanesFoot, marks),
    drawIntergreens(greens, greensTop),
    drawAxis(chart, axisTop),
    ...parts,
    key.svg,
    told.svg,
    cursor(options, geometry.cursorX, lanesTop - 4, axisTop),
  );
}

const titleOf = (chart: PhaseChart): string => `${chart.site.name}${about(chart)}`;

/** Rather a shortened name than none of the times. */
function shownTitle(chart: PhaseChart, room: number): string {
  const tail = about(chart);
  return `${shorten(chart.site.name, room - widthOf(tail, TITLE, 'bold'), TITLE, 'bold')}${tail}`;
}

function about(chart: PhaseChart): string {
  const { cycle } = chart;
  if (cycle.is === 'flash') return `: two flashes, ${rate(chart)}`;
  if (cycle.is === 'list') return ': what it can show';
  if (cycle.total === 0) return '';
  if (cycle.is === 'once') return ': from its start to where it stays';
  const waits = cycle.rows.flatMap((row) => (row.wait === null ? [] : [row.wait]));
  const asked = waits.some((wait) => wait.is === 'extension' || wait.kind === 'demand');
  const more = waits.length === 0 ? '' : asked ? ' or more, with a demand everywhere' : ' or more';
  return `: cycle ${timeText(cycle.total)}${more}`;
}

function cursor(
  options: PhaseChartOptions,
  at: (row: number, elapsed: number) => number | null,
  top: number,
  foot: number,
): string {
  const place = options.cursor ? at(options.cursor.row, options.cursor.elapsed) : null;
  if (place === null && options.isLive !== true) return '';
  const line = through([
    [0, top],
    [0, foot],
  ]);
  return group(
    { class: 'aw-cursor', 'data-top': top, 'data-foot': foot, transform: `translate(${place ?? -20} 0)` },
    element('path', { d: line }),
    element('path', { d: line }),
  );
}
