import type { Frame } from '../../shared/workbench/contract.ts';
import { clockTime } from '../log/clock-time.ts';

/** One line: when, which way, as it was, and what it says. */
export function FrameLine({ frame }: { readonly frame: Frame }) {
  const { at, direction, text, meaning, sound } = frame;
  return (
    <li class="frame" data-direction={direction} data-sound={sound}>
      <time dateTime={at}>{clockTime(at)}</time>
      <span class="way">{direction === 'toBoard' ? '→ to the board' : '← from the board'}</span>
      <code>{text}</code>
      <span class="meaning">
        {!sound && <b>Noise. </b>}
        {meaning}
      </span>
    </li>
  );
}
