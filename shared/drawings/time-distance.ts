/**
 * The time-distance chart: junctions by their distance along the street, their
 * greens along time, and the bands in which vehicles pass all of them on green.
 */
import type { ChartBand, ChartStop, TimeDistance } from '../signals/progression/time-distance.ts';
import { element, group, hint, round, through, words } from './svg.ts';
import { axisStep, SMALL, shorten, TEXT, TITLE, timeText, widthOf } from './text.ts';
import { drawingId, patterns, sheet, type Theme } from './theme.ts';

export interface TimeDistanceOptions {
  /** px; default 1000, at least 560. */
  readonly width?: number;
  readonly theme?: Theme;
  /** Writes a distance; default whole metres of the street. */
  readonly lengthText?: (metres: number) => string;
  readonly bare?: boolean;
}

const TOP = 72;
/** Thickness of a green of one direction, px; that of the way out lies above the line, of the way back below. */
const GREEN = 8;
/** Least room between two junctions, px, so that their names and greens stand clear. */
const APART = 56;
const TALLEST = 1600;

export const timeDistanceRules = `
.aw-red-line{stroke:var(--aw-lamp-red);stroke-width:2}
.aw-street-green{fill:var(--aw-ink);stroke:var(--aw-ground);stroke-width:1}
.aw-street-lamp{fill:var(--aw-lamp-green)}
.aw-band-edge{fill:none;stroke:var(--aw-ink-soft);stroke-width:1.5}
.aw-back .aw-band-edge{stroke-dasharray:6 4}
.aw-band-fill{opacity:.55}
`;

interface Scale {
  readonly left: number;
  readonly right: number;
  readonly foot: number;
  x(seconds: number): number;
  y(metres: number): number;
}

/** A whole SVG file. */
export function timeDistanceChart(data: TimeDistance, options: TimeDistanceOptions = {}): string {
  const width = Math.max(560, options.width ?? 1000);
  const lengthText = options.lengthText ?? ((metres: number) => `${Math.round(metres)} m`);
  const scale = scaleOf(data, width, lengthText);
  const id = drawingId('distance', data.name);
  const clip = element(
    'clipPath',
    { id: `${id}-clip` },
    element('rect', { x: scale.left, y: TOP - 30, width: scale.right - scale.left, height: scale.foot - TOP + 60 }),
  );
  const axisTop = scale.foot + 26;
  const bands = placeLabels(data, scale);
  const title = `${data.name}: cycle ${timeText(data.cycle * 1000)}`;
  return sheet(
    {
      id,
      kind: 'distance',
      width,
      height: axisTop + 44 + 2 * KEY + 8,
      title,
      spoken: spoken(data, lengthText),
      theme: options.theme ?? 'auto',
      rules: timeDistanceRules,
      bare: options.bare ?? false,
      isLive: false,
    },
    patterns(id),
    clip,
    words(shorten(title, width - 32, TITLE, 'bold'), { x: 16, y: 28, class: 'aw-title' }),
    drawCycles(data, scale, axisTop),
    group({ 'clip-path': `url(#${id}-clip)` }, ...data.bands.map((band) => drawBand(band, scale, id))),
    ...data.stops.map((stop) => drawStop(stop, scale, lengthText)),
    ...bands.map(({ x, y, text }) => words(text, { x, y, anchor: 'middle', class: 'aw-small aw-strong aw-halo' })),
    drawAxis(data, scale, axisTop),
    drawKey(data, id, axisTop + 44, width),
  );
}

function scaleOf(data: TimeDistance, width: number, lengthText: (metres: number) => string): Scale {
  const names = data.stops.map((stop) => Math.max(widthOf(stop.name, TEXT), widthOf(lengthText(stop.distance), SMALL)));
  const left = 16 + Math.min(220, Math.max(90, ...names)) + 12;
  const right = width - 24;
  const gaps = data.stops.slice(1).map((stop, index) => stop.distance - (data.stops[index]?.distance ?? 0));
  const closest = Math.min(...gaps.filter((gap) => gap > 0));
  const wanted = Math.max(120 * gaps.length, Number.isFinite(closest) ? (APART * data.length) / closest : 0);
  const tall = Math.min(TALLEST, wanted);
  const foot = TOP + tall;
  return {
    left,
    right,
    foot,
    x: (seconds) => left + (seconds / data.span) * (right - left),
    // The first junction lies at the foot: who drives out drives up the chart.
    y: (metres) => foot - (data.length === 0 ? 0 : (metres / data.length) * tall),
  };
}

function drawStop(stop: ChartStop, scale: Scale, lengthText: (metres: number) => string): string {
  const y = scale.y(stop.distance);
  const greens = (['out', 'back'] as const).flatMap((direction) =>
    stop.greens[direction].map(({ from, to }) => {
      const x = scale.x(from);
      const width = scale.x(to) - x;
      const top = direction === 'out' ? y - GREEN - 1 : y + 1;
      return group(
        { class: 'aw-street-span', 'data-direction': direction, 'data-from': from, 'data-to': to },
        hint(`${stop.name}, ${direction === 'out' ? 'out' : 'back'}: green ${timeText((to - from) * 1000)}`),
        element('rect', { class: 'aw-street-green', x, y: top, width, height: GREEN }),
        element('rect', { class: 'aw-street-lamp', x, y: direction === 'out' ? y - 3 : y, width, height: 3 }),
      );
    }),
  );
  return group(
    { class: 'aw-stop', 'data-site': stop.id, 'data-offset': stop.offset },
    words(shorten(stop.name, scale.left - 28, TEXT), { x: 16, y: y - 8 }, hint(stop.name)),
    words(
      shorten(`${lengthText(stop.distance)}, ${timeText(stop.offset * 1000)}`, scale.left - 28, SMALL),
      { x: 16, y: y + 10, class: 'aw-small aw-soft' },
      hint(`${lengthText(stop.distance)} along the street, offset ${timeText(stop.offset * 1000)}`),
    ),
    element('line', { class: 'aw-red-line', x1: scale.left, x2: scale.right, y1: y, y2: y }),
    ...greens,
  );
}

function drawBand(band: ChartBand, scale: Scale, id: string): string {
  const points = band.corners.map(({ time, distance }): [number, number] => [scale.x(time), scale.y(distance)]);
  const d = through(points, true);
  return group(
    { class: `aw-band aw-${band.direction}`, 'data-direction': band.direction, 'data-width': band.width },
    hint(`Band ${band.direction === 'out' ? 'out' : 'back'}: ${timeText(band.width * 1000)}`),
    element('path', { class: 'aw-band-fill', d, fill: `url(#${id}-${band.direction})` }),
    element('path', { class: 'aw-band-edge', d }),
  );
}

interface Label {
  readonly x: number;
  readonly y: number;
  readonly text: string;
}

/** The seconds of each band once, where it lies whole within the chart and clear of other words and of the greens. */
function placeLabels(data: TimeDistance, scale: Scale): Label[] {
  const placed: Label[] = [];
  for (const direction of ['out', 'back'] as const) {
    const bands = data.bands.filter((band) => band.direction === direction);
    const text = timeText((bands[0]?.width ?? 0) * 1000);
    const half = widthOf(text, SMALL, 'bold') / 2;
    const stops = data.stops.slice(1).map((stop, index) => (stop.distance + (data.stops[index]?.distance ?? 0)) / 2);
    const spots = bands.flatMap((band) => stops.map((distance) => middle(band, distance, data.length)));
    const spot = spots
      .map(({ time, distance }) => ({ x: scale.x(time), y: scale.y(distance), text }))
      .filter(({ x }) => x - half >= scale.left && x + half <= scale.right)
      .find(({ x, y }) => placed.every((other) => Math.abs(other.x - x) > 2 * half + 8 || Math.abs(other.y - y) > 20));
    if (spot !== undefined) placed.push(spot);
  }
  return placed;
}

/** The middle of a band at a distance. */
function middle(
  { corners }: ChartBand,
  distance: number,
  length: number,
): { readonly time: number; readonly distance: number } {
  const [first, firstEnd, , last] = corners;
  const way = length === 0 ? 0 : Math.abs(distance - first.distance) / length;
  return { time: (first.time + last.time) / 2 + way * (firstEnd.time - first.time), distance };
}

/** Light lines where the cycle begins anew. */
function drawCycles(data: TimeDistance, scale: Scale, foot: number): string {
  const count = Math.round(data.span / data.cycle);
  const marks = Array.from({ length: count + 1 }, (_, index) => scale.x(Math.min(data.span, index * data.cycle)));
  const d = marks
    .map((x) =>
      through([
        [x, TOP - 24],
        [x, foot],
      ]),
    )
    .join(' ');
  return element('path', { class: 'aw-line', d, 'stroke-dasharray': '2 4' });
}

function drawAxis(data: TimeDistance, scale: Scale, top: number): string {
  const pixelsPerMs = (scale.right - scale.left) / (data.span * 1000);
  const step = axisStep(pixelsPerMs, 70) / 1000;
  const marks = Array.from({ length: Math.floor(data.span / step + 1e-9) + 1 }, (_, index) => round(index * step));
  const ticks = marks.map((seconds) => {
    const x = scale.x(seconds);
    const text = timeText(seconds * 1000);
    // The last one would stand half beside the chart.
    const anchor = x + widthOf(text, SMALL) / 2 > scale.right + 20 ? ('end' as const) : ('middle' as const);
    const line = element('line', { class: 'aw-line', x1: x, x2: x, y1: top, y2: top + 6 });
    return line + words(text, { x: anchor === 'end' ? scale.right + 20 : x, y: top + 18, anchor, class: 'aw-small' });
  });
  return group(
    { class: 'aw-axis' },
    element('line', { class: 'aw-line', x1: scale.left, x2: scale.right, y1: top, y2: top }),
    ...ticks,
  );
}

const KEY = 46;

/** For each direction a sample, its ends, and what passes. */
function drawKey(data: TimeDistance, id: string, top: number, width: number): string {
  const [first, last] = [data.stops[0]?.name ?? '', data.stops.at(-1)?.name ?? ''];
  return (['out', 'back'] as const)
    .map((direction, index) => {
      const y = top + index * KEY;
      const band = data.bands.find((it) => it.direction === direction)?.width ?? 0;
      const share = `${Math.round((band / data.cycle) * 100)} % of the cycle`;
      const passes = band === 0 ? 'nobody passes all without a stop' : `band ${timeText(band * 1000)}, ${share}`;
      const ends = direction === 'out' ? `${first} → ${last}` : `${last} → ${first}`;
      const side = direction === 'out' ? 'above' : 'below';
      return group(
        { class: `aw-${direction}` },
        element('rect', {
          class: 'aw-band-fill',
          x: 16,
          y: y + 2,
          width: 40,
          height: 34,
          fill: `url(#${id}-${direction})`,
        }),
        element('rect', { class: 'aw-band-edge', x: 16, y: y + 2, width: 40, height: 34 }),
        words(shorten(ends, width - 84, SMALL, 'bold'), { x: 68, y: y + 10, class: 'aw-small aw-strong' }),
        words(shorten(`${passes}; greens ${side} the line`, width - 84, SMALL), {
          x: 68,
          y: y + 28,
          class: 'aw-small',
        }),
      );
    })
    .join('');
}

function spoken(data: TimeDistance, lengthText: (metres: number) => string): string {
  const stops = data.stops.map(
    (stop) => `${stop.name} at ${lengthText(stop.distance)}, offset ${timeText(stop.offset * 1000)}.`,
  );
  const bands = (['out', 'back'] as const).map((direction) => {
    const width = data.bands.find((band) => band.direction === direction)?.width ?? 0;
    return `Band ${direction}: ${timeText(width * 1000)}.`;
  });
  return [...stops, ...bands].join(' ');
}
