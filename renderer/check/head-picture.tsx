import type { Load } from '../../shared/electrics/model.ts';
import { lampsOfHead } from '../../shared/lampcheck/lamps.ts';
import { LETTERS } from '../plan/lamp.tsx';

/** Radius of a lamp, and from one to the next, in units of the picture. */
const R = 20;
const PITCH = 50;
const EDGE = 8;
const STEM = 34;
/** Room beside the head for the mark. */
const SIDE = 62;

/** The head that a lamp sits in, upright, the lamp marked by a ring, an arrow and its letter. */
export function HeadPicture({ loads, load }: { readonly loads: readonly Load[]; readonly load: Load }) {
  const lamps = lampsOfHead(loads, load);
  const height = (lamps.length - 1) * PITCH + 2 * (R + EDGE);
  const half = R + EDGE;
  const width = 2 * (half + SIDE);
  const middle = width / 2;
  const at = (index: number): number => R + EDGE + index * PITCH;
  const marked = at(lamps.findIndex(({ lamp }) => lamp === load.lamp));
  const names = lamps.map(({ colour }) => colour || 'indicator');
  return (
    <svg
      class="check-head"
      viewBox={`0 0 ${width} ${height + STEM + 6}`}
      role="img"
      aria-label={`Head with ${names.join(', ')} from the top; ${load.colour || 'the indicator'} should be lit`}
    >
      <rect class="stem" x={middle - 3} y={height} width={6} height={STEM} />
      <circle class="post-foot" cx={middle} cy={height + STEM} r={6} />
      <rect class="backboard" x={middle - half} y={1} width={2 * half} height={height - 2} rx={half} />
      {lamps.map((lamp, index) => (
        <g key={lamp.lamp} class="lamp" data-colour={lamp.colour || 'white'} data-look={lamp === load ? 'lit' : 'dark'}>
          <circle class="bulb" cx={middle} cy={at(index)} r={R} />
          <text class="letter" x={middle} y={at(index)} dy="0.355em" font-size={R * 1.5}>
            {LETTERS[lamp.colour] ?? '·'}
          </text>
        </g>
      ))}
      <circle class="check-ring" cx={middle} cy={marked} r={R + 5} />
      <path class="check-arrow" d={`M${middle - half - 50} ${marked} h34 m-13 -10 l13 10 l-13 10`} />
      <path class="check-arrow" d={`M${middle + half + 50} ${marked} h-34 m13 -10 l-13 10 l13 10`} />
    </svg>
  );
}
