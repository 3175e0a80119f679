/** Asks a board for everything that it shows at this moment. */
import { ask } from '../../../shared/link/requests.ts';
import { fine, type HostError, type Outcome } from '../result.ts';
import type { BoardSession } from '../session.ts';
import type { Report, SiteReport } from './live-view.ts';

/**
 * Each site's row has begun so long before its answer; the beats before and
 * after it say when that was, to within the time of one question.
 */
export async function takeSnapshot(session: BoardSession, sites: number): Promise<Outcome<Report, HostError>> {
  const snap = await session.request(ask.snap());
  if (!snap.ok) return snap;
  const reports: SiteReport[] = [];
  let from = snap.value.ms;
  if (!snap.value.flags.has('table')) return fine({ snap: snap.value, sites: reports });
  for (let index = 0; index < sites; index++) {
    const site = await session.request(ask.site(index));
    if (!site.ok) return site;
    const beat = await session.request(ask.beat());
    if (!beat.ok) return beat;
    reports.push({ site: site.value, from, to: beat.value });
    from = beat.value;
  }
  return fine({ snap: snap.value, sites: reports });
}
