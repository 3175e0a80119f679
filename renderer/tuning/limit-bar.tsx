import { timeText } from '../../shared/workbench/words.ts';
import type { DialTimes } from '../model/compare.ts';

interface Props {
  readonly times: DialTimes;
}

/** Drawn in a box of this size; it is stretched to the room that there is. */
const WIDE = 200;
const MID = 7;

/** Least and greatest of a time with planned, running and kept between them, told apart by shape. */
export function LimitBar({ times }: Props) {
  const { site, dial, planned, running, kept } = times;
  const limits = site.program.dials[dial];
  if (!limits) return null;
  const { min, max } = limits;
  const range = site.names.dials[dial]?.rule?.range?.value ?? null;
  const at = (ms: number): number => 4 + placeOf(ms, min, max) * (WIDE - 8);
  return (
    <span class="limit-bar">
      <span>{timeText(min)}</span>
      <svg viewBox={`0 0 ${WIDE} 14`} aria-hidden="true" focusable="false">
        <line class="limit-line" x1="4" y1={MID} x2={WIDE - 4} y2={MID} />
        {range && (
          <line class="limit-range" x1={at(range[0])} y1={MID} x2={Math.max(at(range[1]), at(range[0]) + 2)} y2={MID} />
        )}
        <path class="limit-planned" d={`M${at(planned)} ${MID - 5} v10`} />
        {kept !== null && <rect class="limit-kept" x={at(kept) - 4} y={MID - 4} width="8" height="8" />}
        {running !== null && <circle class="limit-running" cx={at(running)} cy={MID} r="5" />}
      </svg>
      <span>{timeText(max)}</span>
    </span>
  );
}

/** 0 to 1, by ratio: times that differ little at the short end would lie on one spot of an even scale. */
export function placeOf(ms: number, min: number, max: number): number {
  if (max <= min) return 0.5;
  const from = Math.max(10, min);
  const within = Math.min(max, Math.max(from, ms));
  return Math.log(within / from) / Math.log(max / from);
}
