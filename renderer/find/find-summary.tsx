import { latestOf, movesOf } from '../../shared/lampcheck/found.ts';
import { lampPlaces } from '../../shared/layout/wiring/lamps.ts';
import { usePanel } from '../model/context.ts';
import type { FindModel } from './find.ts';

/** What was seen, before it goes into the plan. */
export function FindSummary({ find }: { readonly find: FindModel }) {
  const { model, surface } = usePanel();
  const { layout } = model.open.value;
  const board = find.board.value;
  if (!layout) return null;
  const places = lampPlaces(layout, board);
  const found = latestOf(find.found.value);
  const nameOf = (path: string | null): string => places.find((it) => it.path === path)?.name ?? 'not in the plan';
  const names = new Map(find.tries.value.map(({ output, name }) => [output, name]));
  const seen = found.filter(({ path }) => path !== null);
  const { displaced } = movesOf(layout, board, found);
  const missing = places.filter(({ path }) => !seen.some((wire) => wire.path === path));
  return (
    <div class="check-part">
      <p class="check-says" role="status">
        {seen.length} of {places.length} lamps of {model.boardName(board)} were seen.
      </p>
      <ul class="check-verdicts">
        {found.map(({ output, path, activeLow, note }) => (
          <li key={output}>
            <b>{names.get(output)}</b>: {nameOf(path)}
            {activeLow && ', lit by low'}
            {note && ` (${note})`}
          </li>
        ))}
      </ul>
      {displaced.length > 0 && (
        <p class="new-site-note">
          <b>Not seen, and their outputs belong to others: </b>
          {displaced.map(({ name }) => name).join('; ')}. They get what is left, and are to be checked.
        </p>
      )}
      {missing.length > displaced.length && (
        <p>
          Not seen:{' '}
          {missing
            .filter((it) => !displaced.includes(it))
            .map(({ name }) => name)
            .join('; ')}
          .
        </p>
      )}
      {find.findings.value.map(({ code, path, what, cure }) => (
        <p key={`${code} ${path}`} class="new-site-note">
          <b>{what}</b> {cure}
        </p>
      ))}
      <p class="row">
        <button
          type="button"
          class="button strong tall"
          aria-disabled={seen.length === 0}
          onClick={async () => {
            if (seen.length > 0 && (await find.take())) surface.sheet.value = null;
          }}
        >
          Write this into the plan
        </button>
        <button type="button" class="button tall" onClick={() => find.leave()}>
          Once more from the beginning
        </button>
      </p>
    </div>
  );
}
