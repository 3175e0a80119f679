import { useComputed } from '@preact/signals';
import type { BoardModel } from '../model/board.ts';
import { Lamp } from './lamp.tsx';
import type { HeadMark } from './marks.ts';
import { headId, rove } from './rove.ts';
import { BOARD, boardLength, boxOf, crossingLength, halfOf, LAMPS_APART, lampAt, POLE, STEM } from './shapes.ts';
import type { Point } from './vectors.ts';

interface Props {
  readonly mark: HeadMark;
  readonly board: BoardModel;
  readonly r: number;
  /** Where heads are pressed: absent where they only show. */
  readonly pick?: Pick;
}

interface Pick {
  readonly site: string;
  /** Number of the head in its site, and how many there are. */
  readonly at: number;
  readonly of: number;
  /** Its site is wanted at hand, with the times of this head. */
  onChoose(): void;
}

/** A head on its post, a beacon on its banded one, or a group of lamps. */
export function Head({ mark, board, r, pick }: Props) {
  const stands = mark.is === 'head' || mark.is === 'crossing-head' || mark.is === 'beacon';
  const turn = stands ? mark.turn + 180 : 0;
  const aspect = useComputed(() => {
    const looks = mark.lamps.map(({ index, colour }) => ({ colour, look: board.lamp(index).value }));
    if (looks.some(({ look }) => look === 'unknown')) return `${mark.name}: not known`;
    const lit = looks.filter(({ look }) => look === 'lit').map(({ colour }) => colour);
    return `${mark.name}: ${lit.length === 0 ? 'dark' : lit.join(' with ')}`;
  });
  const scaled = (point: Point): Point => ({ x: point.x * r, y: point.y * r });
  return (
    <g
      class={`symbol ${mark.is}`}
      aria-label={aspect}
      {...(pick ? picked(pick) : { role: 'img' as const })}
      transform={`translate(${mark.at.x} ${mark.at.y}) rotate(${turn})`}
    >
      {pick && <Grip mark={mark} r={r} />}
      {mark.is === 'head' && <Post lamps={mark.lamps.length} r={r} />}
      {mark.is === 'beacon' && <BandedPost r={r} />}
      {mark.is === 'crossing-head' && <CrossingPost mark={mark} r={r} />}
      {mark.is === 'street-lamps' && <StreetPosts mark={mark} r={r} />}
      {mark.is === 'vehicle' && <Vehicle mark={mark} r={r} />}
      {mark.is === 'group' && <Backboard mark={mark} r={r} />}
      {mark.lamps.map(({ index, colour }, place) => (
        <Lamp
          key={index}
          index={index}
          board={board.id}
          colour={colour}
          look={board.lamp(index)}
          at={scaled(lampAt(mark, place))}
          r={mark.is === 'beacon' ? r * 1.1 : r}
          turn={turn}
        />
      ))}
    </g>
  );
}

function picked({ site, at, of, onChoose }: Pick) {
  return {
    id: headId(site, at),
    role: 'button' as const,
    tabindex: -1,
    'aria-description': 'Enter takes its dial in hand.',
    onClick: onChoose,
    onKeyDown: (event: KeyboardEvent): void => {
      const next = rove(event.key, at, of);
      if (event.key === 'Enter' || event.key === ' ') onChoose();
      else if (next !== null) document.getElementById(next < 0 ? `site-${site}` : headId(site, next))?.focus();
      else return;
      event.preventDefault();
    },
  };
}

/** What is pressed, and where the keyboard is shown: all of the symbol and a little more. */
function Grip({ mark, r }: { readonly mark: HeadMark; readonly r: number }) {
  const { left, top, right, bottom } = boxOf({ ...mark, at: { x: 0, y: 0 }, turn: 180 }, r);
  const edge = 0.5 * r;
  return (
    <rect
      class="grip"
      x={left - edge}
      y={top - edge}
      width={right - left + 2 * edge}
      height={bottom - top + 2 * edge}
      rx={r}
    />
  );
}

/** Seen from above and laid down: the foot is on the side of the traffic that the head faces. */
function Post({ lamps, r }: { readonly lamps: number; readonly r: number }) {
  const end = boardLength(lamps) * r;
  return (
    <>
      <rect class="stem" x={-0.17 * r} y={end} width={0.34 * r} height={(STEM - 0.3) * r} />
      <circle class="post-foot" cx={0} cy={end + (STEM - 0.4) * r} r={0.42 * r} />
      <rect class="backboard" x={-BOARD * r} y={0} width={2 * BOARD * r} height={end} rx={BOARD * r} />
    </>
  );
}

/** Bands of equal height, the lowest black (SI 1997/2400, Schedule 1 Part I, paragraph 2). */
function BandedPost({ r }: { readonly r: number }) {
  const bands = 5;
  const height = (POLE * r) / bands;
  return (
    <>
      <circle class="post-foot" cx={0} cy={0} r={0.5 * r} />
      {Array.from({ length: bands }, (_, at) => (
        <rect
          key={at}
          class={at % 2 === 0 ? 'band black' : 'band white'}
          x={-0.3 * r}
          y={at * height}
          width={0.6 * r}
          height={height}
        />
      ))}
    </>
  );
}

interface Symbol {
  readonly mark: HeadMark;
  readonly r: number;
}

/** Two reds on a wide board, which narrows to the amber below them. */
function CrossingPost({ mark, r }: Symbol) {
  const half = (LAMPS_APART / 2 + BOARD) * r;
  const wide = 2 * BOARD * r;
  const end = crossingLength(mark.lamps) * r;
  const foot = BOARD * r;
  const outline =
    end > wide
      ? `M${-half} 0 H${half} V${wide * 0.75} L${foot} ${end} H${-foot} L${-half} ${wide * 0.75} Z`
      : `M${-half} 0 H${half} V${end} H${-half} Z`;
  return (
    <>
      <rect class="stem" x={-0.17 * r} y={end} width={0.34 * r} height={(STEM - 0.3) * r} />
      <circle class="post-foot" cx={0} cy={end + (STEM - 0.4) * r} r={0.42 * r} />
      <path class="backboard" d={outline} stroke-linejoin="round" />
    </>
  );
}

/** Each on a post of its own. */
function StreetPosts({ mark, r }: Symbol) {
  return (
    <>
      {mark.lamps.map(({ index }, at) => {
        const { x, y } = lampAt(mark, at);
        return (
          <g key={index}>
            <rect class="stem" x={(x - 0.17) * r} y={y * r} width={0.34 * r} height={1.7 * r} />
            <circle class="post-foot" cx={x * r} cy={(y + 1.65) * r} r={0.42 * r} />
          </g>
        );
      })}
    </>
  );
}

/** Seen from above, its front up. */
function Vehicle({ mark, r }: Symbol) {
  const { x, y } = halfOf(mark);
  const glass = (x - 0.7) * r;
  return (
    <>
      <rect class="vehicle-body" x={-x * r} y={-y * r} width={2 * x * r} height={2 * y * r} rx={0.9 * r} />
      <rect class="vehicle-glass" x={-glass} y={(0.45 - y) * r} width={2 * glass} height={0.5 * r} rx={0.25 * r} />
    </>
  );
}

function Backboard({ mark, r }: Symbol) {
  const { x, y } = halfOf(mark);
  return <rect class="backboard" x={-x * r} y={-y * r} width={2 * x * r} height={2 * y * r} rx={BOARD * r} />;
}
