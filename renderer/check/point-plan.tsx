import type { Layout } from '../../shared/layout/schema.ts';
import { usePanel } from '../model/context.ts';
import type { OpenSite } from '../model/document.ts';
import { type Ground, groundOf } from '../plan/ground.ts';
import { Head } from '../plan/head.tsx';
import { marksOf, type SiteMarks } from '../plan/marks.ts';
import { Roads } from '../plan/roads.tsx';
import { roomFor } from '../plan/room.ts';

/** Width at which lamps are drawn as large as a thumb needs them, px. */
const WIDTH = 700;

interface Drawn {
  readonly ground: Ground;
  readonly r: number;
  readonly marks: readonly SiteMarks[];
}

/** Finding room for all symbols takes a while, and one points again and again. */
const KNOWN = new WeakMap<Layout, Drawn>();

function drawn(layout: Layout, sites: readonly OpenSite[]): Drawn {
  const known = KNOWN.get(layout);
  if (known) return known;
  const ground = groundOf(layout);
  const mm = ground.width / WIDTH;
  const r = roomFor((radius) => marksOf(layout, ground, sites, radius), ground, 16 * mm);
  const made = { ground, r, marks: marksOf(layout, ground, sites, r) };
  KNOWN.set(layout, made);
  return made;
}

/** The plan, on which a lamp is pointed at with the mouse or a finger; the list beside it is for the keyboard. */
export function PointPlan({ board, onPoint }: { readonly board: string; readonly onPoint: (lamp: number) => void }) {
  const { model } = usePanel();
  const { layout, sites } = model.open.value;
  if (!layout) return null;
  const { ground, r, marks } = drawn(layout, sites);
  return (
    // biome-ignore lint/a11y/useKeyWithClickEvents: every lamp is a key in the list beside the plan
    <svg
      class="point-plan"
      viewBox={`0 0 ${ground.width} ${ground.depth}`}
      role="img"
      aria-label="Plan: press the lamp that did light"
      onClick={(event) => {
        const lamp = event.target instanceof Element ? event.target.closest('[data-lamp]') : null;
        const [of, number] = lamp?.getAttribute('data-lamp')?.split(' ') ?? [];
        if (of === board && number !== undefined) onPoint(Number(number));
      }}
    >
      <rect class="verge" width={ground.width} height={ground.depth} rx={10} />
      <Roads ground={ground} marks={marks} />
      {marks.map((mark) => {
        const site = sites.find(({ id }) => id === mark.id);
        if (!site) return null;
        return (
          <g key={mark.id} class={site.board === board ? '' : 'elsewhere'}>
            {mark.heads.map((head) => (
              <Head key={head.name} mark={head} board={model.board(site.board)} r={r} />
            ))}
          </g>
        );
      })}
    </svg>
  );
}
