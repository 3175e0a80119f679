import type { BoardState } from '../../shared/workbench/contract.ts';
import { Wear } from '../keeps/wear.tsx';
import { dayTime } from '../log/clock-time.ts';
import { chipWords, firmwareWords } from '../writing/words.ts';
import { causeWords, tableWords } from './words.ts';

/** What is known of a board, line by line; nothing before it has been met. */
export function BoardFacts({ state }: { readonly state: BoardState }) {
  const { who, copiedAt, silicon, supplyMillivolts } = state;
  const chip = chipWords(state);
  if (!who && !copiedAt && !silicon) return null;
  return (
    <dl class="facts">
      {who && (
        <>
          <dt>Runs</dt>
          <dd>{tableWords(state.running)}</dd>
          <dt>Starts with</dt>
          <dd>{tableWords(state.kept)}</dd>
        </>
      )}
      {(who || silicon) && (
        <>
          <dt>Chip</dt>
          <dd>
            {chip.name}
            {chip.current && `: ${chip.current}`}
          </dd>
        </>
      )}
      {who && (
        <>
          <dt>Firmware</dt>
          <dd>{firmwareWords(state)}</dd>
          <dt>Identity</dt>
          <dd>{who.identity}</dd>
          <dt>Last start</dt>
          <dd>{causeWords(state.resetCause)}</dd>
        </>
      )}
      <Wear wear={state.wear} />
      {supplyMillivolts !== null && (
        <>
          <dt>Supply</dt>
          <dd>{(supplyMillivolts / 1000).toFixed(2)} V</dd>
        </>
      )}
      {copiedAt !== null && (
        <>
          <dt>Copy</dt>
          <dd>this computer has one of what it keeps, from {dayTime(copiedAt)}</dd>
        </>
      )}
    </dl>
  );
}
