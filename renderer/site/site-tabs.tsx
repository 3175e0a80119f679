import { CommandButton } from '../commands/button.tsx';
import { usePanel } from '../model/context.ts';

/** All sites by name; the one at hand is pressed. */
export function SiteTabs() {
  const { model } = usePanel();
  const atHand = model.siteAtHand.value;
  return (
    <fieldset class="site-tabs" aria-label="Site at hand">
      {model.open.value.sites.map((site) => (
        <button
          key={site.id}
          type="button"
          class="tab"
          aria-pressed={site === atHand}
          onClick={() => model.choose(site.id)}
        >
          {site.names.name}
        </button>
      ))}
      <CommandButton id="new-site" class="tab new" />
    </fieldset>
  );
}
