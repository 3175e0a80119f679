/** Posts standing side by side at scale 1:1, with their heads and lenses. Lengths are mm, as printed. */
import { element, group, through, words } from '../svg.ts';
import { TEXT_MM } from './block.ts';
import { HEIGHT, WIDTH } from './styles.ts';

export interface Lens {
  /** From the middle of the post to the right, mm. */
  readonly across: number;
  /** Of its middle above the ground, mm. */
  readonly up: number;
  readonly diameter: number;
}

export interface CutPost {
  /** Stands under the post and in the table. */
  readonly number: number;
  /** Length above the ground, mm. */
  readonly length: number;
  /** Diameter of the post, mm. */
  readonly thick: number;
  /** Outline of the head, mm from the middle of the post and above the ground; null where only its lenses are drawn. */
  readonly head: { readonly width: number; readonly bottom: number; readonly top: number } | null;
  readonly lenses: readonly Lens[];
}

const GAP = 7;
const FOOT = 8;
/** Room for a length beside its post, mm. */
const FIGURE = 17;
/** The tallest post that fits on a page with its number and the table's beginning, mm. */
export const TALLEST = HEIGHT - 40;

const topOf = ({ length, head, lenses }: CutPost): number =>
  Math.max(length, head?.top ?? 0, ...lenses.map(({ up, diameter }) => up + diameter / 2));

const halfOf = ({ thick, head, lenses }: CutPost): number =>
  Math.max(thick / 2, (head?.width ?? 0) / 2, ...lenses.map(({ across, diameter }) => Math.abs(across) + diameter / 2));

const roomOf = (post: CutPost): number => 2 * Math.max(halfOf(post), 4) + FIGURE + GAP;

/** Rows of posts, one SVG each, so that a page may end between them. Posts taller than `TALLEST` are left out. */
export function cutDrawings(posts: readonly CutPost[]): string[] {
  const rows: CutPost[][] = [];
  let used = 0;
  for (const post of posts) {
    if (topOf(post) > TALLEST) continue;
    if (rows.length === 0 || used + roomOf(post) > WIDTH) {
      rows.push([]);
      used = 0;
    }
    rows.at(-1)?.push(post);
    used += roomOf(post);
  }
  return rows.map(drawRow);
}

export const isTooTall = (post: CutPost): boolean => topOf(post) > TALLEST;

function drawRow(posts: readonly CutPost[]): string {
  const ground = Math.max(...posts.map(topOf)) + 2;
  const height = ground + FOOT;
  let x = 0;
  const drawn = posts.map((post) => {
    const middle = x + Math.max(halfOf(post), 4);
    x += roomOf(post);
    return drawPost(post, middle, ground);
  });
  return element(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      class: 'posts',
      width: `${WIDTH}mm`,
      height: `${height}mm`,
      viewBox: `0 0 ${WIDTH} ${height}`,
      'font-size': TEXT_MM,
      role: 'img',
      'aria-label': `Posts ${posts.map(({ number }) => number).join(', ')} at scale 1:1`,
    },
    element('path', { class: 'line', d: `M0 ${ground}H${WIDTH}` }),
    ...drawn,
  );
}

function drawPost(post: CutPost, x: number, ground: number): string {
  const { number, length, thick, head, lenses } = post;
  const y = (up: number): number => ground - up;
  const half = halfOf(post);
  // The measure stands beside whatever the post carries.
  const beside = x + half + 2;
  const middle = Math.max(length / 2, 3);
  return group(
    { class: 'post' },
    element('rect', { class: 'hollow stem', x: x - thick / 2, y: y(length), width: thick, height: length }),
    head === null
      ? ''
      : element('rect', {
          class: 'hollow head',
          x: x - head.width / 2,
          y: y(head.top),
          width: head.width,
          height: head.top - head.bottom,
        }),
    ...lenses.map((lens) =>
      element('circle', { class: 'hollow lens', cx: x + lens.across, cy: y(lens.up), r: lens.diameter / 2 }),
    ),
    element('path', {
      class: 'line measure',
      d: `${through([
        [beside, y(length)],
        [beside, ground],
      ])}M${beside - 1} ${y(length)}h2M${beside - 1} ${ground}h2`,
    }),
    words(`${length.toFixed(1)}`, { x: beside + 1.5, y: y(middle) }),
    words(String(number), { x, y: ground + 4, class: 'bold', anchor: 'middle' }),
  );
}
