/** The stage diagram: a small plan for each stage of a junction, in order, with what may move in it. */
import type { Junction } from '../layout/sites.ts';
import { stageName } from './phases/spans.ts';
import { movementsOf } from './stages/moves.ts';
import { drawPlan, PLAN, PLAN_RULES } from './stages/plan.ts';
import { element, group, hint, through, words } from './svg.ts';
import { flow, SMALL, shorten, TEXT, TITLE, timeText, widthOf } from './text.ts';
import { drawingId, sheet, type Theme } from './theme.ts';

export interface StageDiagramOptions {
  /** px; default 1000, at least 320. */
  readonly width?: number;
  readonly theme?: Theme;
  /** Side of the road, from the practice. Default: left. */
  readonly drives?: 'left' | 'right';
  /** For each stage how long the change from it to the next takes, ms; null where it is not known. */
  readonly changes?: readonly (number | null)[];
  /** Greens of the stages that run, ms. Default: those of the document. */
  readonly greens?: readonly number[];
  /** The stage that runs. */
  readonly now?: number | null;
  readonly bare?: boolean;
}

/** Between two plans: an arrow and its seconds. */
const BETWEEN = 72;
const CAPTION = 52;
const TOP = 56;
const LOOP = 30;

export const stageDiagramRules = `${PLAN_RULES}
.aw-next{stroke:var(--aw-ink-soft);stroke-width:2.5;fill:none;stroke-linejoin:round;stroke-linecap:round}
.aw-now{fill:none;stroke:var(--aw-ink);stroke-width:3}
`;

/** A whole SVG file. */
export function stageDiagram(site: Junction, options: StageDiagramOptions = {}): string {
  const room = Math.max(320, options.width ?? 1000);
  const movements = movementsOf(site, site.place?.turn ?? 0, options.drives);
  const step = PLAN + BETWEEN;
  const columns = Math.max(1, Math.min(site.stages.length, Math.floor((room - 64 + BETWEEN) / step)));
  const width = Math.min(room, Math.max(480, columns * step - BETWEEN + 64));
  const lines = Math.ceil(site.stages.length / columns);
  const lineHeight = PLAN + CAPTION + LOOP;
  const at = (index: number) => ({
    x: 32 + (index % columns) * step,
    y: TOP + Math.floor(index / columns) * lineHeight,
  });
  const nameOf = (id: string): string => {
    const name = site.phases.find((phase) => phase.id === id)?.name ?? id;
    return name === id ? id : `${id} ${name}`;
  };
  const stages = site.stages.map((stage, index) => {
    const { x, y } = at(index);
    const ms = options.greens?.[index] ?? Math.round(stage.green * 1000);
    const name = stageName(site, stage);
    const look = { drives: options.drives ?? 'left', green: stage.phases, nameOf };
    const title = `${index + 1} ${name}`;
    return group(
      { class: 'aw-stage', 'data-stage': stage.id },
      hint(`Stage ${index + 1}, ${name}: ${stage.phases.map(nameOf).join(', ')}`),
      group({ transform: `translate(${x + PLAN / 2} ${y + PLAN / 2})` }, drawPlan(movements, look)),
      options.now === index ? element('rect', { class: 'aw-now', x, y, width: PLAN, height: PLAN, rx: 8 }) : '',
      words(shorten(title, PLAN, TEXT, 'bold'), { x, y: y + PLAN + 16, class: 'aw-strong' }),
      words(shorten(`${stage.phases.join(', ')} green ${timeText(ms)}`, PLAN, SMALL), {
        x,
        y: y + PLAN + 36,
        class: 'aw-small',
      }),
    );
  });
  const next = (d: string): string => element('path', { class: 'aw-next', d });
  const arrows = site.stages.length < 2 ? [] : site.stages.map((_, index) => change(index));
  function change(index: number): string {
    const last = index === site.stages.length - 1;
    const here = at(index);
    const ms = options.changes?.[index] ?? null;
    const middle = here.y + PLAN / 2;
    const label = (x: number, y: number, anchor: 'middle' | 'end'): string =>
      ms === null ? '' : words(timeText(ms), { x, y, anchor, class: 'aw-small' });
    if (!last && (index + 1) % columns !== 0) {
      const [from, to] = [here.x + PLAN + 10, here.x + step - 10];
      const line = through([
        [from, middle],
        [to, middle],
      ]);
      return next(`${line} ${tip([to, middle], [1, 0])}`) + label((from + to) / 2, middle - 16, 'middle');
    }
    // To the next line, or from the last stage back to the first: around the plans.
    const right = here.x + PLAN + 14;
    const foot = here.y + PLAN + CAPTION + (last ? LOOP / 2 : 6);
    const target = at(last ? 0 : index + 1);
    const end: Step = last ? [target.x - 4, target.y + PLAN / 2] : [target.x + PLAN / 2, target.y - 4];
    const bend: Step[] = last
      ? [
          [12, foot],
          [12, end[1]],
        ]
      : [[end[0], foot]];
    const way = through([[here.x + PLAN + 6, middle], [right, middle], [right, foot], ...bend, end]);
    return next(`${way} ${tip(end, last ? [1, 0] : [0, 1])}`) + label(right - 8, foot - 10, 'end');
  }
  const keyTop = TOP + lines * lineHeight + 4;
  const shown = site.phases.map(({ id }) => ({
    id,
    text: `${nameOf(id)}${movements.unknown.includes(id) ? ' (not on the plan)' : ''}`,
  }));
  const key = flow(
    shown.map((item) => ({ ...item, width: widthOf(item.text, SMALL) + 28 })),
    width - 64,
  );
  const height = keyTop + ((key.at(-1)?.line ?? 0) + 1) * 24 + 12;
  const title = `${site.name}: stages`;
  const id = drawingId('stages', site.id);
  return sheet(
    {
      id,
      kind: 'stages',
      width,
      height,
      title,
      spoken: site.stages
        .map((stage, index) => `Stage ${index + 1}: ${stage.phases.map(nameOf).join(', ')} green.`)
        .join(' '),
      theme: options.theme ?? 'auto',
      rules: stageDiagramRules,
      bare: options.bare ?? false,
      isLive: false,
    },
    words(shorten(title, width - 64, TITLE, 'bold'), { x: 32, y: 28, class: 'aw-title' }),
    ...arrows,
    ...stages,
    ...key.map(({ item, x, line }) =>
      words(shorten(item.text, width - 64, SMALL), { x: 32 + x, y: keyTop + line * 24 + 12, class: 'aw-small' }),
    ),
  );
}

type Step = [number, number];

function tip([x, y]: Step, [right, down]: Step): string {
  return through([
    [x - 7 * right - 6 * down, y - 7 * down - 6 * right],
    [x, y],
    [x - 7 * right + 6 * down, y - 7 * down + 6 * right],
  ]);
}
