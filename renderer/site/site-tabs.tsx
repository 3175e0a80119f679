import { CommandButton } from '../commands/button.tsx';
import { usePanel } from '../model/context.ts';

/** More tabs than this would push the dials out of sight. */
const TABS = 8;

/** All sites by name; the one at hand is pressed. */
export function SiteTabs() {
  const { model } = usePanel();
  const { sites } = model.open.value;
  const atHand = model.siteAtHand.value;
  return (
    <fieldset class="site-tabs" aria-label="Site at hand">
      {sites.length > TABS ? (
        <select
          class="site-choice"
          aria-label="Site at hand"
          value={atHand?.id ?? ''}
          onChange={(event) => model.choose(event.currentTarget.value)}
        >
          {sites.map((site) => (
            <option key={site.id} value={site.id}>
              {site.names.name}
            </option>
          ))}
        </select>
      ) : (
        sites.map((site) => (
          <button
            key={site.id}
            type="button"
            class="tab"
            aria-pressed={site === atHand}
            onClick={() => model.choose(site.id)}
          >
            {site.names.name}
          </button>
        ))
      )}
      <CommandButton id="new-site" class="tab new" label="New site">
        +
      </CommandButton>
    </fieldset>
  );
}
