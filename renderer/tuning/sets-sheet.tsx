import { timeText } from '../../shared/workbench/words.ts';
import { CommandButton } from '../commands/button.tsx';
import { signed } from '../model/compare.ts';
import { usePanel } from '../model/context.ts';
import type { SetScope } from '../model/sets.ts';
import { SetKeys } from './sets-bar.tsx';

/** Two sets of times: noted, switched between, and side by side. */
export function SetsSheet() {
  const { model } = usePanel();
  const { sets } = model;
  const site = model.siteAtHand.value;
  if (!site) return <p>Take a site in hand first.</p>;
  const has = { A: sets.has('A'), B: sets.has('B') };
  return (
    <>
      <p>
        Note what runs as A, change it, note it as B. Then X goes to and fro while you watch. From then on a dial that
        you turn changes the set that runs.
      </p>
      <fieldset class="set-scope">
        <legend>Of what</legend>
        {(
          [
            ['site', site.names.name],
            ['board', `all sites of ${model.boardName(site.board)}`],
          ] as const
        ).map(([scope, words]) => (
          <label key={scope} class="field">
            <input
              type="radio"
              name="set-scope"
              checked={sets.scope.value === scope}
              onChange={() => {
                sets.scope.value = scope satisfies SetScope;
              }}
            />
            {words}
          </label>
        ))}
      </fieldset>
      <SetKeys />
      <p class="row">
        <CommandButton id="note-a" />
        <CommandButton id="note-b" />
        {(has.A || has.B) && (
          <button type="button" class="button" onClick={() => sets.forget()}>
            Forget both
          </button>
        )}
      </p>
      {has.A && has.B ? (
        <Apart />
      ) : (
        <p>{has.A || has.B ? 'The other set is not noted yet.' : 'Nothing is noted yet.'}</p>
      )}
    </>
  );
}

function Apart() {
  const { model } = usePanel();
  const { apart } = model.sets;
  if (apart.length === 0) return <p>A and B are the same. Turn a dial: it changes the one that runs.</p>;
  return (
    <table class="times">
      <caption>{apart.length === 1 ? 'One time differs' : `${apart.length} times differ`}</caption>
      <thead>
        <tr>
          <th scope="col">Time</th>
          <th scope="col">A</th>
          <th scope="col">B</th>
          <th scope="col">B against A</th>
        </tr>
      </thead>
      <tbody>
        {apart.map(({ site, id, name, a, b }) => (
          <tr key={`${site.id} ${id}`}>
            <th scope="row">
              {site.names.name}: {name}
            </th>
            <td>{timeText(a ?? 0)}</td>
            <td>{timeText(b ?? 0)}</td>
            <td>{signed((b ?? 0) - (a ?? 0))}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
