import { useComputed, useSignal } from '@preact/signals';
import { useLayoutEffect, useMemo, useRef } from 'preact/hooks';
import { BoardNote } from '../board/board-note.tsx';
import { usePanel } from '../model/context.ts';
import type { Distance } from '../model/preferences.ts';
import { groundOf } from './ground.ts';
import { Head } from './head.tsx';
import { roadLabel, siteLabels } from './labels.ts';
import { marksOf } from './marks.ts';
import { Moving } from './moving.ts';
import { Roads } from './roads.tsx';
import { roomFor } from './room.ts';
import { SiteMark } from './site-mark.tsx';

/** Sizes on the screen, px: radius of a lamp, name of a site, name of a road (0: not shown). */
const SIZES: Readonly<Record<Distance, { lamp: number; name: number; road: number }>> = {
  room: { lamp: 20, name: 32, road: 0 },
  layout: { lamp: 14, name: 20, road: 16 },
  desk: { lamp: 11, name: 16, road: 14 },
};

/** Above so many sites their names are smaller and what runs is told in the panel; across the room names would be all there is. */
const MANY = 8;
const CROWDED: Readonly<Record<Distance, { name: number }>> = {
  room: { name: 0 },
  layout: { name: 15 },
  desk: { name: 14 },
};

const BLOOMS = ['red', 'amber', 'green', 'white', 'warm-white', 'blue', 'yellow'];

/** The town seen from above. */
export function Plan() {
  const { model } = usePanel();
  const frame = useRef<HTMLDivElement>(null);
  const room = useSignal({ width: 800, height: 600 });
  useLayoutEffect(() => {
    const element = frame.current;
    if (!element) return;
    const measure = (): void => {
      const { clientWidth: width, clientHeight: height } = element;
      const before = room.peek();
      if (width > 0 && height > 0 && (width !== before.width || height !== before.height))
        room.value = { width, height };
    };
    measure();
    const observer = new ResizeObserver(measure);
    observer.observe(element);
    return () => observer.disconnect();
  }, [room]);

  const { layout, sites } = model.open.value;
  const ground = useMemo(() => (layout ? groundOf(layout) : null), [layout]);
  const distance = model.preferences.distance.value;
  const isCrowded = sites.length > MANY;
  const sizes = isCrowded ? { ...SIZES[distance], ...CROWDED[distance] } : SIZES[distance];
  const { width, height } = room.value;
  const mm = ground ? Math.max(ground.width / width, ground.depth / height) : 1;
  const most = sizes.lamp * mm;
  const r = useMemo(
    () => (layout && ground ? roomFor((radius) => marksOf(layout, ground, sites, radius), ground, most) : 1),
    [layout, ground, sites, most],
  );
  const marks = useMemo(() => (layout && ground ? marksOf(layout, ground, sites, r) : []), [layout, ground, sites, r]);
  const hasFigures = sizes.road > 0 && !isCrowded;
  const labels = useMemo(() => {
    if (!ground) return [];
    const height = sizes.name * mm * (hasFigures ? 2.3 : 1.25);
    return siteLabels(marks, ground, r, (mark) => {
      const name = sites.find(({ id }) => id === mark.id)?.names.name ?? '';
      const longest = hasFigures ? Math.max(name.length, 12) : name.length;
      return { width: longest * 0.515 * sizes.name * mm, height };
    });
  }, [marks, ground, sites, r, mm, sizes, hasFigures]);
  const moving = useMemo(() => new Moving(model), [model]);
  const wayOf = (id: string): string => {
    const way = moving.now.value;
    return way?.site === id ? `translate(${way.by.x} ${way.by.y})` : '';
  };
  const atHand = useComputed(() => model.siteAtHand.value?.id ?? null);
  if (!layout || !ground) return <div class="plan" ref={frame} />;

  return (
    <div class="plan" ref={frame}>
      <svg viewBox={`0 0 ${ground.width} ${ground.depth}`} aria-label={`Plan of ${layout.name}`}>
        <Glow />
        <rect class="verge" width={ground.width} height={ground.depth} rx={10} />
        <g clip-path="url(#baseboard)">
          <clipPath id="baseboard">
            <rect width={ground.width} height={ground.depth} rx={10} />
          </clipPath>
          <Roads ground={ground} marks={marks} />
          {sizes.road > 0 &&
            ground.roads.map((road) => {
              const label = roadLabel(road, marks, road.name.length * 0.62 * sizes.road * mm, ground.roads);
              if (!label || road.name === '') return null;
              const { x, y } = label.at;
              return (
                <text
                  key={road.id}
                  class="street"
                  x={x}
                  y={y}
                  dy="0.35em"
                  font-size={sizes.road * mm}
                  stroke-width={sizes.road * mm * 0.7}
                  transform={`rotate(${label.turn} ${x} ${y})`}
                >
                  {road.name}
                </text>
              );
            })}
        </g>
        {marks.map((mark, at) => {
          const site = sites.find(({ id }) => id === mark.id);
          const label = labels[at];
          if (!site || !label) return null;
          return (
            <SiteMark
              key={mark.id}
              site={site}
              mark={mark}
              label={label}
              size={sizes.name * mm}
              hasFigures={hasFigures}
              hasName={sizes.name > 0}
              isAtHand={atHand.value === mark.id}
              moving={moving}
              mm={mm}
            />
          );
        })}
        {marks.map((mark) => {
          const site = sites.find(({ id }) => id === mark.id);
          return (
            site && (
              <g key={mark.id} transform={wayOf(mark.id)}>
                {mark.heads.map((head) => (
                  <Head key={head.name} mark={head} board={model.board(site.board)} r={r} />
                ))}
              </g>
            )
          );
        })}
      </svg>
      <BoardNote />
    </div>
  );
}

/** Light on the street around a lit lamp, one for each colour. */
function Glow() {
  return (
    <defs>
      {BLOOMS.map((colour) => (
        <radialGradient key={colour} id={`bloom-${colour}`} class={`glow ${colour}`}>
          <stop offset="0.25" stop-opacity="0.85" />
          <stop offset="0.5" stop-opacity="0.3" />
          <stop offset="1" stop-opacity="0" />
        </radialGradient>
      ))}
    </defs>
  );
}
