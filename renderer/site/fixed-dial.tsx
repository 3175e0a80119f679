import { timeText } from '../../shared/workbench/words.ts';
import type { OpenSite } from '../model/document.ts';

/** A time whose least and greatest are the same: it is told, with why it stands still. */
export function FixedDial({ site, dial }: { readonly site: OpenSite; readonly dial: number }) {
  const named = site.names.dials[dial];
  const value = site.binding.dials[dial] ?? 0;
  if (!named) return null;
  return (
    <li class="fixed-dial" data-fixed={named.id}>
      <span>
        <b>{named.name}</b> stands still. {whyFixed(value, named.leastBecause)}
      </span>
      <span class="fixed-value">{timeText(value)}</span>
    </li>
  );
}

function whyFixed(value: number, because: string | undefined): string {
  if (because !== undefined) return because;
  return value === 0 ? 'The site looks at its inputs at every moment.' : 'The site needs it to be exactly this.';
}
