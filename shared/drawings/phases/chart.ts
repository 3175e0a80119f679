/** Everything that a phase chart shows, before anything is drawn: for the picture and for the panel. */

import { TEXT, widthOf } from '../text.ts';
import { drawingId } from '../theme.ts';
import { type Cycle, cycleOf } from './cycle.ts';
import { chartGeometry, type PhaseChartGeometry } from './geometry.ts';
import { type Lane, lanesOf } from './lanes.ts';
import type { ChartSite } from './source.ts';
import { type Intergreen, intergreens, type StageSpan, stageSpans } from './stages.ts';

export interface PhaseChart {
  readonly id: string;
  readonly site: ChartSite;
  readonly cycle: Cycle;
  readonly lanes: readonly Lane[];
  readonly stages: readonly StageSpan[];
  readonly intergreens: readonly Intergreen[];
  readonly handles: readonly Handle[];
  readonly width: number;
  readonly geometry: PhaseChartGeometry;
}

/** A place on the chart where a dial can be taken hold of: the end of a row that it times. */
export interface Handle {
  readonly dial: number;
  readonly name: string;
  /** Place in `Cycle.rows`. */
  readonly at: number;
  /** ms. */
  readonly value: number;
  readonly least: number;
  readonly greatest: number;
  /** px: the begin of the row, its planned end, and where it would end at the limits, kept within the chart. */
  readonly xFrom: number;
  readonly x: number;
  readonly xLeast: number;
  readonly xGreatest: number;
}

/** Room at the left for names and at the right for figures, px. */
const MARGIN = 16;
const NAMES = [110, 210] as const;
const FIGURES = 176;

export function phaseChartData(site: ChartSite, width: number): PhaseChart {
  const cycle = cycleOf(site);
  const lanes = lanesOf(site, cycle);
  const { site: document } = site;
  const stages = document.kind === 'junction' ? stageSpans(document, lanes, cycle) : [];
  const names = [...lanes.map((lane) => laneTitle(lane)), ...site.dialNames];
  const widest = Math.max(...names.map((name) => widthOf(name, TEXT))) + 12;
  const left = MARGIN + Math.min(Math.max(NAMES[0], widest), Math.min(NAMES[1], width * 0.25));
  const right = Math.max(left + 120, width - MARGIN - FIGURES);
  const geometry = chartGeometry(cycle, left, right);
  return {
    id: drawingId('phases', site.id),
    site,
    cycle,
    lanes,
    stages,
    intergreens: document.kind === 'junction' ? intergreens(site.program, lanes, cycle) : [],
    handles: handlesOf(site, cycle, geometry),
    width,
    geometry,
  };
}

/** For the panel: what stands where, without drawing anything. */
export function phaseChartGeometry(site: ChartSite, width: number): PhaseChartGeometry {
  return phaseChartData(site, width).geometry;
}

/** `A Fore Street`. */
export function laneTitle(lane: Lane): string {
  return lane.phase === null || lane.phase === lane.name ? lane.name : `${lane.phase} ${lane.name}`;
}

function handlesOf(site: ChartSite, cycle: Cycle, geometry: PhaseChartGeometry): Handle[] {
  return cycle.rows.flatMap((row, at) => {
    const limits = row.dial === null ? undefined : site.program.dials[row.dial];
    const place = geometry.rows[at];
    // A dial whose limits are equal stands still.
    if (row.dial === null || limits === undefined || place === undefined || limits.min === limits.max) return [];
    const { min: least, max: greatest } = limits;
    const x = (ms: number): number => Math.min(geometry.right, place.x + ms * geometry.pixelsPerMs);
    return [
      {
        dial: row.dial,
        name: site.dialNames[row.dial] ?? String(row.dial),
        at,
        value: row.to - row.from,
        least,
        greatest,
        xFrom: place.x,
        x: place.xLeast,
        xLeast: x(least),
        xGreatest: x(greatest),
      },
    ];
  });
}
