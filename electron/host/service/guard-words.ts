/** What the guard of a board did and has seen, as lines of the session log. */
import type { GuardRecord } from '../../../shared/link/requests.ts';
import { FAULTS } from '../../../shared/link/vocabulary.ts';
import type { BoardPlan } from './document.ts';
import { siteName } from './sentences.ts';

/** `deed`: a key of `DEEDS`, or of a newer firmware. `wasKept`: what ran was what is kept. */
export function deedText({ name }: BoardPlan, deed: string, wasKept: boolean): string {
  switch (deed) {
    case 'reloaded':
      return `${name} found its running table damaged and started the table that it keeps${wasKept ? '' : ': what was not kept is lost'}.`;
    case 'stopped':
      return `${name} found its running table damaged, had none kept whole, and went dark: the layout has to be sent again.`;
    case 'renewed':
      return `${name} found the table that it keeps damaged and kept the running one anew, which was the same.`;
    case 'damaged':
      return `${name} found the table that it keeps damaged and could not renew it: the running one has to be kept again.`;
    default:
      return `The guard of ${name} did something that this version does not know.`;
  }
}

export function backText(plan: BoardPlan, site: number): string {
  return `${siteName(plan, site)} came back from its fault aspect by itself.`;
}

/** What a board has seen before anybody was there to hear it; null where that is nothing. */
export function guardText(plan: BoardPlan, seen: GuardRecord): string | null {
  const parts: string[] = [];
  if (seen.faults > 0) {
    const reason = FAULTS.find(({ key }) => key === seen.fault)?.reason ?? 'a fault that this version does not know';
    const at = seen.site === null ? '' : `, the last one at ${siteName(plan, seen.site)}: ${reason}`;
    parts.push(`${times(seen.faults, 'fault', 'faults')}${at}`);
  }
  if (seen.deeds.has('reloaded')) parts.push('a damaged table was replaced by the kept one');
  if (seen.deeds.has('stopped')) parts.push('a damaged table was stopped');
  if (seen.deeds.has('renewed')) parts.push('a damaged kept table was kept anew');
  if (seen.deeds.has('damaged')) parts.push('the kept table was found damaged');
  if (seen.watchdogs > 0) parts.push(`${times(seen.watchdogs, 'restart', 'restarts')} by its watchdog since power-on`);
  if (seen.brownouts > 0)
    parts.push(`${times(seen.brownouts, 'restart', 'restarts')} by a supply that had dropped too low, since power-on`);
  return parts.length === 0 ? null : `The guard of ${plan.name} had seen: ${parts.join('; ')}.`;
}

function times(count: number, one: string, more: string): string {
  return `${count === 255 ? 'at least 255' : count} ${count === 1 ? one : more}`;
}
