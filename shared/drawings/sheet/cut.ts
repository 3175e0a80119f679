/** The posts to cut, drawn at scale 1:1, with the ruler that proves the print. */

import { lightsFor } from '../../scale/lights.ts';
import { ratioIn, scaleText } from '../../scale/ratios.ts';
import { cutDrawings, isTooTall } from './cut-drawing.ts';
import { heading, html, list, paragraph, table } from './html.ts';
import type { SheetBoard } from './model.ts';
import { sourcesOf } from './post-kinds.ts';
import { type PostGroup, postsOf } from './posts.ts';
import { ruler } from './ruler.ts';

export function cutSection(sheet: SheetBoard): string {
  const groups = postsOf(sheet);
  if (groups.length === 0) return '';
  const tall = groups.filter(({ post }) => isTooTall(post));
  return html(
    'section',
    { class: 'page cut' },
    heading(`${sheet.compiled.name}: posts to cut, at scale 1:1`),
    paragraph(`The layout is ${scaleIn(sheet)}.`),
    ruler(),
    ...cutDrawings(groups.map(({ post }) => post)).map((drawing) => html('figure', {}, drawing)),
    tall.length === 0 ? '' : paragraph(`Too tall to be drawn on this paper: ${tall.map(numberOf).join(', ')}.`),
    table('cuts', COLUMNS, [{ title: null, rows: groups }]),
    paragraph(
      'Lengths are from the ground to the top of the post; add what goes into the baseboard, and cut a tube that is ' +
        'wide enough for its wires.',
    ),
    list(sourceLines(groups)),
  );
}

const scaleIn = ({ layout }: SheetBoard): string =>
  scaleText(layout.scale === 'custom' ? ratioIn(layout) : layout.scale);

const numberOf = ({ post }: PostGroup): string => String(post.number);

const COLUMNS = [
  { head: 'No.', strong: true, cell: numberOf },
  { head: 'Count', cell: ({ count }: PostGroup) => String(count) },
  {
    head: 'What',
    cell: ({ kind, post }: PostGroup) => [kind.name, lensText(kind.isGlobe, post.lenses.length)],
  },
  { head: 'Length, mm', strong: true, cell: ({ post }: PostGroup) => post.length.toFixed(1) },
  { head: 'Lens, mm, and what comes nearest', cell: lightCell },
  { head: 'Where', cell: ({ places }: PostGroup) => places },
];

/** What shows of it on the layout, and what one can buy for that. */
function lightCell({ lens }: PostGroup): string[] {
  const { led, fibre } = lightsFor(lens);
  const named = [led, fibre].flatMap((it) => (it === null ? [] : [it.light.name]));
  return [lens.toFixed(1), named.join(' or ')];
}

function lensText(isGlobe: boolean, count: number): string {
  if (isGlobe) return 'one globe on top';
  return `${count} ${count === 1 ? 'lens' : 'lenses'}`;
}

function sourceLines(groups: readonly PostGroup[]): string[] {
  const kinds = new Set(groups.map(({ kind }) => kind));
  return [...kinds].map((kind) => `${kind.name}: ${sourcesOf(kind)}.`);
}
