import type { Use } from '../../shared/layout/wiring/outputs.ts';
import type { LampLook } from '../model/board.ts';
import { letterOf } from './words.ts';

interface Props {
  readonly use: Use['is'];
  /** Null: any lamp, without a letter. */
  readonly colour?: string | null;
  readonly look?: LampLook;
}

/** What an output is used for, by its shape: a ring of dashes is free, a disc is a lamp, an arrow comes in. */
export function SlotMark({ use, colour = '', look = 'dark' }: Props) {
  return (
    <svg class="slot-mark" viewBox="0 0 28 28" aria-hidden="true">
      {use === 'free' && <circle class="free-ring" cx={14} cy={14} r={10} />}
      {use === 'lamp' && (
        <g class="lamp" data-colour={colour ?? ''} data-look={look === 'lit' ? 'lit' : 'dark'}>
          <circle class="bulb" cx={14} cy={14} r={11.5} />
          {colour !== null && (
            <text class="letter" x={14} y={14} dy="0.355em" font-size={15}>
              {letterOf(colour)}
            </text>
          )}
        </g>
      )}
      {use === 'input' && <path class="slot-arrow" d="M14 23 L5 12 H11 V4 H17 V12 H23 Z" />}
      {use === 'chain' && <path class="slot-chain" d="M3 10 H15 V18 H3 Z M13 14 H25 M21 9 L26 14 L21 19" />}
      {use === 'serial' && <path class="slot-serial" d="M6 6 L22 22 M22 6 L6 22" />}
    </svg>
  );
}
