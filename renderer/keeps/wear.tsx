import type { BoardState } from '../../shared/workbench/contract.ts';
import { WEAR_HINT, wearWords } from './words.ts';

/** How often the memory of a board was written; for a list of facts. */
export function Wear({ wear }: { readonly wear: BoardState['wear'] }) {
  if (!wear) return null;
  return (
    <>
      <dt>Kept</dt>
      <dd title={WEAR_HINT}>
        {wearWords(wear)}
        {wear.worn && (
          <>
            . <b>It is nearly worn out:</b> let another board take its place in good time.
          </>
        )}
      </dd>
    </>
  );
}
