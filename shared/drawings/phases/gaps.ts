/** Lines where the lamps change, and the gaps in which rows wait. */
import { element, group, words } from '../svg.ts';
import type { PhaseChart } from './chart.ts';

/** Light lines through all lanes where the lamps change. */
export function drawBoundaries(chart: PhaseChart, top: number, foot: number): string {
  const xs = [...new Set(chart.geometry.rows.slice(1).map(({ x }) => Math.round(x * 100) / 100))];
  return xs.map((x) => element('line', { class: 'aw-boundary', x1: x, x2: x, y1: top, y2: foot })).join('');
}

/** Frames around the gaps in which rows wait, with the letter of the note that says for what. */
export function drawGaps(chart: PhaseChart, top: number, foot: number, marks: readonly (string | null)[]): string {
  const { rows } = chart.geometry;
  const shown = readableMarks(chart, marks);
  return rows
    .map(({ row, xLeast, xEnd }, at) => {
      const mark = marks[at] ?? null;
      if (mark === null) return '';
      const x = (xLeast + xEnd) / 2;
      const width = Math.max(1, xEnd - xLeast - 3);
      return group(
        { class: 'aw-wait', 'data-row': row, 'data-mark': mark },
        element('rect', {
          class: 'aw-gap',
          x: xLeast + 1,
          y: top,
          width,
          height: foot - top,
          rx: Math.min(4, width / 2),
        }),
        shown.has(at) ? drawMark(mark, x, foot) : '',
      );
    })
    .join('');
}

function drawMark(mark: string, x: number, y: number): string {
  return group(
    { class: 'aw-mark' },
    element('circle', { cx: x, cy: y, r: 11 }),
    words(mark, { x, y, anchor: 'middle', class: 'aw-small aw-strong' }),
  );
}

/** Where gaps are narrow not each can have its letter; each letter stands at least once, the rare ones first. */
function readableMarks(chart: PhaseChart, marks: readonly (string | null)[]): ReadonlySet<number> {
  const middles = chart.geometry.rows.map(({ xLeast, xEnd }) => (xLeast + xEnd) / 2);
  const count = (mark: string | null): number => marks.filter((it) => it === mark).length;
  const order = marks.map((_, at) => at).filter((at) => marks[at] !== null);
  order.sort((a, b) => count(marks[a] ?? null) - count(marks[b] ?? null) || a - b);
  const shown = new Set<number>();
  const place = (at: number): void => {
    const isFree = [...shown].every((other) => Math.abs((middles[other] ?? 0) - (middles[at] ?? 0)) >= 25);
    if (isFree) shown.add(at);
  };
  for (const at of order) if (![...shown].some((other) => marks[other] === marks[at])) place(at);
  for (const at of order) place(at);
  return shown;
}
