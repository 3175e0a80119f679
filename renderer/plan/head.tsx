import { useComputed } from '@preact/signals';
import type { BoardModel } from '../model/board.ts';
import { Lamp } from './lamp.tsx';
import type { HeadMark } from './marks.ts';
import { BOARD, boardLength, GROUP_COLUMNS, lampAt, PITCH, POLE, STEM } from './shapes.ts';
import type { Point } from './vectors.ts';

interface Props {
  readonly mark: HeadMark;
  readonly board: BoardModel;
  readonly r: number;
}

/** A head on its post, a beacon on its banded one, or a group of lamps. */
export function Head({ mark, board, r }: Props) {
  const turn = mark.is === 'group' ? 0 : mark.turn + 180;
  const aspect = useComputed(() => {
    const looks = mark.lamps.map(({ index, colour }) => ({ colour, look: board.lamp(index).value }));
    if (looks.some(({ look }) => look === 'unknown')) return `${mark.name}: not known`;
    const lit = looks.filter(({ look }) => look === 'lit').map(({ colour }) => colour);
    return `${mark.name}: ${lit.length === 0 ? 'dark' : lit.join(' with ')}`;
  });
  const scaled = (point: Point): Point => ({ x: point.x * r, y: point.y * r });
  return (
    // biome-ignore lint/a11y/noInteractiveElementToNoninteractiveRole: a group of shapes is nothing that acts
    <g
      class={mark.is}
      role="img"
      aria-label={aspect}
      transform={`translate(${mark.at.x} ${mark.at.y}) rotate(${turn})`}
    >
      {mark.is === 'head' && <Post lamps={mark.lamps.length} r={r} />}
      {mark.is === 'beacon' && <BandedPost r={r} />}
      {mark.is === 'group' && <Backboard lamps={mark.lamps.length} r={r} />}
      {mark.lamps.map(({ index, colour }, at) => (
        <Lamp
          key={index}
          index={index}
          board={board.id}
          colour={colour}
          look={board.lamp(index)}
          at={scaled(lampAt(mark, at))}
          r={mark.is === 'beacon' ? r * 1.1 : r}
          turn={turn}
        />
      ))}
    </g>
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

function Backboard({ lamps, r }: { readonly lamps: number; readonly r: number }) {
  const columns = Math.min(GROUP_COLUMNS, lamps);
  const rows = Math.ceil(lamps / columns);
  const width = columns * PITCH * r + 0.4 * r;
  const height = rows * PITCH * r + 0.4 * r;
  return <rect class="backboard" x={-width / 2} y={-height / 2} width={width} height={height} rx={BOARD * r} />;
}
