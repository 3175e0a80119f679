/** The lanes of a phase chart: one bar for each phase, told apart by weight, pattern and letter. */
import { element, group, hint, words } from '../svg.ts';
import { SMALL, shorten, TEXT, timeText, widthOf } from '../text.ts';
import { laneTitle, type PhaseChart } from './chart.ts';
import { type Bar, type Lane, lettersOf, wordsOf } from './lanes.ts';

export const LANE = 36;
const BAR = 26;
/** The stripe in the lamp's own colour at the foot of its bar. */
const STRIPE = 4;

export const BAR_RULES = `
.aw-bar .aw-base{fill:var(--aw-key)}
.aw-go:not(.aw-flashing) .aw-body{fill:var(--aw-ink)}
.aw-dark .aw-base{fill:none}
.aw-bar .aw-rest{stroke:var(--aw-ink-soft);stroke-dasharray:1 5;stroke-width:2;stroke-linecap:round}
.aw-drawing .aw-letter{font-weight:700;stroke:var(--aw-key);stroke-width:5;paint-order:stroke;stroke-linejoin:round}
.aw-drawing .aw-go .aw-letter{fill:var(--aw-ground);stroke:var(--aw-ink)}
.aw-drawing .aw-go.aw-flashing .aw-letter{fill:var(--aw-ink);stroke:var(--aw-key)}
.aw-drawing .aw-dark .aw-letter{stroke:var(--aw-ground)}
`;

export function drawLane(chart: PhaseChart, lane: Lane, top: number): string {
  const { geometry, id } = chart;
  const middle = top + LANE / 2;
  const title = shorten(laneTitle(lane), geometry.left - 16 - 10, TEXT);
  const name = words(title, { x: 16, y: middle }, hint(laneTitle(lane)));
  const attributes = { class: 'aw-lane', 'data-lane': lane.phase ?? lane.name };
  if (lane.bars.length === 0) {
    return group(attributes, name, words('no lamps', { x: geometry.left + 8, y: middle, class: 'aw-soft' }));
  }
  const figure = greenShare(chart, lane);
  return group(
    attributes,
    name,
    ...lane.bars.map((bar) => drawBar(chart, bar, top + (LANE - BAR) / 2, id)),
    figure === '' ? '' : words(figure, { x: geometry.right + 12, y: middle, class: 'aw-soft' }),
  );
}

function drawBar(chart: PhaseChart, bar: Bar, top: number, id: string): string {
  const { rows } = chart.geometry;
  const x = rows[bar.first]?.x ?? 0;
  const width = Math.max(0.5, (rows[bar.last]?.xEnd ?? x) - x - 1);
  const flashes = bar.flashing !== 'no';
  const from = chart.cycle.rows[bar.first]?.from ?? 0;
  const to = chart.cycle.rows[bar.last]?.to ?? 0;
  return group(
    {
      class: `aw-bar aw-${bar.weight}${flashes ? ' aw-flashing' : ''}`,
      'data-shows': wordsOf(bar),
      'data-from': from,
      'data-to': to,
    },
    hint(`${wordsOf(bar)}, ${timeText(to - from)}`),
    element('rect', { class: 'aw-base', x, y: top, width, height: BAR }),
    bar.weight === 'dark'
      ? element('line', { class: 'aw-rest', x1: x + 2, x2: x + width - 1, y1: top + BAR / 2, y2: top + BAR / 2 })
      : element('rect', { class: 'aw-body', x, y: top, width, height: BAR, fill: fillOf(bar, id) }),
    stripes(bar, x, top + BAR, width),
    letter(bar, x, top + (BAR - STRIPE) / 2, width),
  );
}

/** A pattern where weight alone does not tell; the rules paint the rest. */
export function fillOf(bar: Pick<Bar, 'weight' | 'flashing'>, id: string): string {
  if (bar.flashing !== 'no') return `url(#${id}-${bar.flashing === 'alternate' ? 'alternate' : 'flash'})`;
  if (bar.weight === 'go' || bar.weight === 'stop' || bar.weight === 'dark') return 'none';
  return `url(#${id}-${bar.weight})`;
}

function stripes(bar: Bar, x: number, foot: number, width: number): string {
  const colours = [...new Set(bar.colours)];
  const height = colours.length > 1 ? STRIPE - 1 : STRIPE;
  return colours
    .map((colour, index) => {
      const y = foot - height * (colours.length - index);
      return element('rect', { class: `aw-lamp-${colour}`, x, y, width, height });
    })
    .join('');
}

function letter(bar: Bar, x: number, y: number, width: number): string {
  const letters = lettersOf(bar);
  const needed = widthOf(letters, SMALL, 'bold') + 2;
  if (needed > width) return '';
  const narrow = width < needed + 16;
  const place = narrow ? { x: x + width / 2, anchor: 'middle' as const } : { x: x + 8 };
  return words(letters, { ...place, y, class: 'aw-letter aw-small' });
}

/** `18.0 s green, 41 %`: how much of the cycle a phase is green. */
function greenShare(chart: PhaseChart, lane: Lane): string {
  const { cycle } = chart;
  if (lane.phase === null || cycle.total === 0) return '';
  const greens = lane.bars.filter((bar) => bar.weight === 'go' && bar.flashing === 'no');
  const ms = greens.reduce((sum, bar) => sum + (cycle.rows[bar.last]?.to ?? 0) - (cycle.rows[bar.first]?.from ?? 0), 0);
  const least = greens.some((bar) => cycle.rows.slice(bar.first, bar.last + 1).some((row) => row.wait !== null));
  if (least) return `green ${timeText(ms)} or more`;
  return `green ${timeText(ms)}, ${Math.round((ms / cycle.total) * 100)} %`;
}
