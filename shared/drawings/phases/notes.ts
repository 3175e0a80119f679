/** What the chart says in words: waits, the key to its patterns, and the whole of it for those who hear it. */
import { element, group, words } from '../svg.ts';
import { flow, SMALL, timeText, widthOf } from '../text.ts';
import { fillOf } from './bars.ts';
import { laneTitle, type PhaseChart } from './chart.ts';
import { flashParts, type Wait } from './cycle.ts';
import { type Bar, lettersOf, wordsOf } from './lanes.ts';
import type { Note } from './spans.ts';

export const NOTE = 24;

/** For each row of the cycle the letter of its wait, and what the letters mean. Equal waits share one. */
export function waitNotes(chart: PhaseChart): { readonly marks: (string | null)[]; readonly notes: Note[] } {
  const notes: Note[] = [];
  const marks = chart.cycle.rows.map(({ wait }) => {
    if (wait === null) return null;
    const text = waitText(wait, chart.site.inputNames);
    const known = notes.find((note) => note.text === text);
    if (known) return known.mark;
    const mark = letterOf(notes.length);
    notes.push({ mark, text });
    return mark;
  });
  return { marks, notes };
}

const letterOf = (index: number): string => String.fromCharCode(97 + (index % 26));

function waitText(wait: Wait, names: readonly string[]): string {
  const inputs = wait.inputs.map((input) => names[input] ?? `input ${input + 1}`).join(' or ');
  const most = wait.most === null ? '' : `, at most ${timeText(wait.most)} longer`;
  if (wait.is === 'for-ever') return 'stays so';
  if (wait.is === 'chance') return `by chance up to ${timeText(wait.most ?? 0)} longer`;
  if (wait.is === 'common-cycle') return 'waits for its point of the common cycle';
  if (wait.is === 'extension') return `longer while ${inputs || 'traffic'} is active${most}`;
  const until = {
    demand: `waits for a demand from ${inputs}`,
    noDemand: `waits until ${inputs} has no demand`,
    active: `waits for ${inputs}`,
    allActive: `waits for ${wait.inputs.map((input) => names[input]).join(' and ')}`,
    inactive: `waits until ${inputs} is clear`,
    notAll: `waits until one of ${inputs} is clear`,
    changed: `waits for a change of ${inputs}`,
  };
  return `${wait.kind === null ? 'waits' : until[wait.kind]}${most}`;
}

export function drawNotes(
  notes: readonly Note[],
  width: number,
  top: number,
): { readonly svg: string; readonly height: number } {
  const items = notes.map((note) => ({ ...note, width: widthOf(`${note.mark}  ${note.text}`, SMALL) + 28 }));
  const placed = flow(items, width);
  const svg = placed
    .map(({ item, x, line }) => {
      const y = top + line * NOTE + NOTE / 2;
      return (
        words(item.mark, { x: 16 + x, y, class: 'aw-small aw-strong' }) +
        words(item.text, { x: 16 + x + widthOf(item.mark, SMALL, 'bold') + 8, y, class: 'aw-small' })
      );
    })
    .join('');
  return { svg, height: ((placed.at(-1)?.line ?? -1) + 1) * NOTE };
}

/** Small samples of the patterns that the chart uses, each with its words. */
export function drawKey(
  chart: PhaseChart,
  width: number,
  top: number,
): { readonly svg: string; readonly height: number } {
  const samples = new Map<string, Bar>();
  for (const lane of chart.lanes)
    for (const bar of lane.bars) if (!samples.has(wordsOf(bar))) samples.set(wordsOf(bar), bar);
  const items = [...samples].map(([text, bar]) => {
    const letters = lettersOf(bar);
    const box = Math.max(30, widthOf(letters, SMALL, 'bold') + 10);
    const full = bar.flashing === 'no' ? text : `${text}, ${rate(chart)}`;
    return { bar, letters, box, text: full, width: box + 8 + widthOf(full, SMALL) + 24 };
  });
  const placed = flow(items, width);
  const svg = placed
    .map(({ item, x, line }) => {
      const y = top + line * NOTE + 3;
      const left = 16 + x;
      return group(
        { class: `aw-sample aw-bar aw-${item.bar.weight}${item.bar.flashing === 'no' ? '' : ' aw-flashing'}` },
        element('rect', { class: 'aw-base', x: left, y, width: item.box, height: NOTE - 6 }),
        element('rect', {
          class: 'aw-body',
          x: left,
          y,
          width: item.box,
          height: NOTE - 6,
          fill: fillOf(item.bar, chart.id),
        }),
        words(item.letters, {
          x: left + item.box / 2,
          y: y + (NOTE - 6) / 2,
          anchor: 'middle',
          class: 'aw-letter aw-small',
        }),
        words(item.text, { x: left + item.box + 8, y: y + (NOTE - 6) / 2, class: 'aw-small' }),
      );
    })
    .join('');
  return { svg, height: ((placed.at(-1)?.line ?? -1) + 1) * NOTE };
}

/** `75 a minute`. */
export function rate(chart: PhaseChart): string {
  const [on, off] = flashParts(chart.site.program, chart.site.dials);
  const perMinute = 60_000 / Math.max(1, on + off);
  return `${Number(perMinute.toFixed(perMinute < 10 ? 1 : 0))} a minute`;
}

/** The chart in words. */
export function spokenChart(chart: PhaseChart): string {
  const { cycle, lanes } = chart;
  const rows = cycle.rows;
  const phases = lanes.map((lane) => {
    const parts = lane.bars.map((bar) => {
      const from = rows[bar.first]?.from ?? 0;
      const to = rows[bar.last]?.to ?? 0;
      return `${wordsOf(bar)} from ${timeText(from)} to ${timeText(to)}`;
    });
    return `${laneTitle(lane)}: ${parts.join(', ') || 'no lamps'}.`;
  });
  const greens = chart.intergreens.map(
    ({ from, to, ms }) => `Intergreen from ${from.join(', ')} to ${to.join(', ')} ${timeText(ms)}.`,
  );
  const waits = waitNotes(chart);
  const waiting = rows.flatMap((row, at) => {
    const note = waits.notes.find(({ mark }) => mark === waits.marks[at]);
    return note ? [`${chart.site.rowLabels[row.row] ?? ''}: ${note.text}.`] : [];
  });
  return [...phases, ...greens, ...waiting].join(' ');
}
