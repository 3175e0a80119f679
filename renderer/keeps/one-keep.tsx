import type { EarlierKeep } from '../../shared/workbench/contract.ts';
import { changeLines, momentOf } from './words.ts';

interface Props {
  readonly copy: EarlierKeep;
  readonly now: Date;
  readonly isReady: boolean;
  readonly choose: () => void;
}

/** One table that the board kept: when, of which layout, what is another now, and the way back to it. */
export function OneKeep({ copy, now, isReady, choose }: Props) {
  const moment = momentOf(copy.at, now);
  return (
    <li class="one-keep" data-now={copy.isNow}>
      <p class="row">
        <time dateTime={copy.at}>{moment}</time>
        {copy.layout && <span>{copy.layout}</span>}
        <span class="soft">table {copy.crc}</span>
        {copy.isNow ? (
          <b>The board starts with this.</b>
        ) : (
          <button
            type="button"
            class="button"
            aria-label={`Put back what was kept ${moment}`}
            aria-disabled={!isReady}
            onClick={() => isReady && choose()}
          >
            Put this back
          </button>
        )}
      </p>
      <ul class="keep-changes">
        {changeLines(copy).map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </li>
  );
}
