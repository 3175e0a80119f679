import { timeText } from '../../shared/workbench/words.ts';

interface Props {
  /** ms. */
  readonly planned: number;
  /** Null while no board runs the site. */
  readonly running: number | null;
  /** Null while no kept table is known. */
  readonly kept: number | null;
}

/** Planned and kept beside the running time; what differs from it stands out by weight and a word. */
export function Told({ planned, running, kept }: Props) {
  const differs = (ms: number): boolean => running !== null && ms !== running;
  return (
    <span class="told">
      <span class={differs(planned) ? 'differs' : ''}>planned {timeText(planned)}</span>
      {kept !== null && <span class={differs(kept) ? 'differs' : ''}>kept {timeText(kept)}</span>}
      {running === null && <span>not running</span>}
    </span>
  );
}
