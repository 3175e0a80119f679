/**
 * Colours of the drawings. Each is a custom property that takes the panel's
 * value where there is one, else its own, so that a saved file stands alone.
 * Only lamps are saturated; everything else speaks by weight and pattern.
 */
import { element, escaped } from './svg.ts';
import { SMALL, TEXT, TITLE } from './text.ts';

/** `auto` follows the reader's own setting, light where there is none. */
export type Theme = 'dark' | 'light' | 'auto';

const COLOURS = {
  ground: ['#12161a', '#fbf9f4'],
  ink: ['#f1ede4', '#171b1f'],
  'ink-soft': ['#b3b8b9', '#50575c'],
  key: ['#2d353c', '#dcd9cf'],
  line: ['#4a555d', '#a9a599'],
  verge: ['#1b2224', '#e6e6da'],
  asphalt: ['#3a4249', '#b4b7b9'],
  paint: ['#d8d3c4', '#ffffff'],
  'lamp-red': ['#ff4538', '#d3261b'],
  'lamp-amber': ['#ffb31a', '#d98a00'],
  'lamp-green': ['#19e08a', '#00965a'],
  'lamp-yellow': ['#ffe04a', '#d0a800'],
  'lamp-white': ['#f4f7ff', '#8a8f98'],
  'lamp-warm-white': ['#ffe2ae', '#b08a4a'],
  'lamp-blue': ['#4d8dff', '#2a62d8'],
} as const;

const PROPERTIES = Object.keys(COLOURS) as (keyof typeof COLOURS)[];
const FACE = '"Atkinson Hyperlegible Next Variable", "Atkinson Hyperlegible Next", system-ui, sans-serif';

/** Paint that the panel sets for all drawings at once, `--ground` and so on, goes before our own. */
function properties(column: 0 | 1): string {
  return PROPERTIES.map((name) => `--aw-${name}:var(--${name},${COLOURS[name][column]});`).join('');
}

const RULES = `
.aw-drawing{font-family:var(--face,${FACE});font-size:${TEXT}px;font-variant-numeric:tabular-nums}
.aw-drawing text{fill:var(--aw-ink)}
.aw-ground{fill:var(--aw-ground)}
.aw-drawing .aw-title{font-size:${TITLE}px;font-weight:650}
.aw-drawing .aw-small{font-size:${SMALL}px}
.aw-drawing .aw-soft{fill:var(--aw-ink-soft)}
.aw-drawing .aw-strong{font-weight:700}
.aw-line{stroke:var(--aw-line);fill:none}
.aw-ink{stroke:var(--aw-ink);fill:none}
.aw-fill{fill:var(--aw-ink)}
.aw-key{fill:var(--aw-key)}
.aw-drawing .aw-halo{stroke:var(--aw-ground);stroke-width:5;paint-order:stroke;stroke-linejoin:round}
${['red', 'amber', 'green', 'yellow', 'white', 'warm-white', 'blue'].map((it) => `.aw-lamp-${it}{fill:var(--aw-lamp-${it})}`).join('\n')}
`;

/**
 * The rules of some kinds of drawings, such as `phaseChartRules`, for a page that shows several and allows no styles
 * inside them. `whose` says which drawings get the colours.
 */
export function drawingStyles(theme: Theme, rules: string, whose = '.aw-drawing'): string {
  const dark = `${whose}{color-scheme:dark;${properties(0)}}`;
  const light = `${whose}{color-scheme:light;${properties(1)}}`;
  const auto = `${light}@media (prefers-color-scheme:dark){${dark}}`;
  return `${{ dark, light, auto }[theme]}${RULES}${rules}`;
}

export interface Sheet {
  /** Distinguishes the drawings of one page; letters, digits, hyphens. */
  readonly id: string;
  readonly kind: string;
  readonly width: number;
  readonly height: number;
  readonly title: string;
  /** The drawing in words, for those who hear it. */
  readonly spoken: string;
  readonly theme: Theme;
  /** Rules of this kind of drawing. */
  readonly rules: string;
  /** Without styles, where the page has them. */
  readonly bare: boolean;
  /** Something in it can be taken hold of. */
  readonly isLive: boolean;
}

/** The whole file. */
export function sheet(of: Sheet, ...children: string[]): string {
  const { id, width, height } = of;
  const attributes = {
    xmlns: 'http://www.w3.org/2000/svg',
    id,
    class: `aw-drawing aw-${of.kind}`,
    width,
    height,
    viewBox: `0 0 ${Math.round(width)} ${Math.round(height)}`,
    role: of.isLive ? 'group' : 'img',
    'aria-labelledby': `${id}-title ${id}-desc`,
  };
  return element(
    'svg',
    attributes,
    element('title', { id: `${id}-title` }, escaped(of.title)),
    element('desc', { id: `${id}-desc` }, escaped(of.spoken)),
    of.bare ? '' : element('style', {}, drawingStyles(of.theme, of.rules, `#${id}`)),
    element('rect', { class: 'aw-ground', width, height }),
    ...children,
  );
}

/** Small hatched and dotted fills that tell aspects apart without colour. */
export function patterns(id: string): string {
  const pattern = (name: string, size: number, turn: number, inside: string): string =>
    element(
      'pattern',
      {
        id: `${id}-${name}`,
        width: size,
        height: size,
        patternUnits: 'userSpaceOnUse',
        patternTransform: turn === 0 ? null : `rotate(${turn})`,
      },
      inside,
    );
  const stripe = (width: number, height: number): string => element('rect', { class: 'aw-fill', width, height });
  return element(
    'defs',
    {},
    pattern('change', 7, 45, stripe(3, 7)),
    pattern('ready', 7, -45, stripe(1.4, 7)),
    pattern('other', 7, 0, element('circle', { class: 'aw-fill', cx: 2, cy: 2, r: 1.3 })),
    pattern('flash', 12, 0, stripe(6, 12)),
    pattern('alternate', 12, 0, element('rect', { class: 'aw-fill', x: 6, width: 6, height: 12 })),
    pattern('out', 9, 45, stripe(1.6, 9)),
    pattern('back', 9, -45, stripe(1.6, 9)),
  );
}

/** An id that XML, CSS and `url()` take, made from any name. */
export function drawingId(kind: string, name: string): string {
  return `aw-${kind}-${name.replaceAll(/[^A-Za-z0-9_-]/g, '-')}`;
}
