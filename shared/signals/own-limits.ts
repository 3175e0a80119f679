/**
 * Limits that the owner has set for a site's dials. They widen or narrow what a person can turn; they never
 * shorten what keeps one green clear of the next. A limit that cannot be is left as it was, with a warning.
 */
import type { Finding } from '../findings/finding.ts';
import { warning } from '../findings/make.ts';
import type { TimeLimit } from '../layout/limits.ts';
import { toMs } from '../layout/scalars.ts';
import type { Site } from '../layout/schema.ts';
import type { PlannedDial } from './dials.ts';
import { seconds } from './names.ts';
import { type Bounds, dialBounds } from './raw-dials.ts';
import { holdable, type Planned } from './site.ts';

/** Dials of the change from one green to the next, whatever the kind of site. */
const BETWEEN_GREENS = /^(amber|red-with-amber|all-red|clearance|least-red|flashing|held-flashing)(-|$)/;

export function withOwnLimits(site: Site, path: string, planned: Planned): Planned {
  const { plan } = planned;
  if (plan === null || site.limits === undefined) return planned;
  const findings: Finding[] = [];
  const dials = [...plan.dials];
  for (const [id, limit] of Object.entries(site.limits)) {
    const place = `${path}.limits.${id}`;
    const at = dials.findIndex((dial) => dial.id === id);
    const dial = dials[at];
    if (dial === undefined) findings.push(noSuchTime(site.name, id, place));
    else if (dial.min === dial.max) findings.push(standsStill(dial, place));
    else dials[at] = limited(dial, limit, dialBounds(at, plan.program.rows, plan.program.flash), place, findings);
  }
  const program = {
    ...plan.program,
    dials: plan.program.dials.map((it, at) => ({
      ...it,
      min: dials[at]?.min ?? it.min,
      max: dials[at]?.max ?? it.max,
    })),
  };
  return { plan: { ...plan, dials, program }, findings: [...planned.findings, ...findings] };
}

/** Why the least time of a dial stays as it is, whoever asks; null where it may be lowered. */
export function leastStays(dial: Pick<PlannedDial, 'id' | 'leastBecause'>): string | null {
  if (dial.leastBecause !== undefined) return dial.leastBecause;
  return BETWEEN_GREENS.test(dial.id) ? 'It keeps one movement clear of the next.' : null;
}

function limited(dial: PlannedDial, limit: TimeLimit, board: Bounds, path: string, findings: Finding[]): PlannedDial {
  const wanted = {
    min: limit.least === undefined ? dial.min : toMs(limit.least),
    max: limit.greatest === undefined ? dial.max : toMs(limit.greatest),
  };
  const because = leastStays(dial);
  const floor = because === null ? board.least : dial.min;
  // The planned time stays within them.
  const min = Math.min(Math.max(wanted.min, floor), dial.value);
  const max = holdable(Math.max(Math.min(wanted.max, board.greatest), dial.value));
  if (min !== wanted.min) {
    const why =
      wanted.min > dial.value ? 'The planned time is shorter.' : (because ?? 'The board times nothing shorter.');
    findings.push(stays(`The least of "${dial.name}" is ${seconds(min)}, not ${seconds(wanted.min)}.`, why, path));
  }
  if (max !== wanted.max) {
    const why = wanted.max < dial.value ? 'The planned time is longer.' : 'The board times nothing longer there.';
    findings.push(stays(`The greatest of "${dial.name}" is ${seconds(max)}, not ${seconds(wanted.max)}.`, why, path));
  }
  return { ...dial, min, max, owner: { min: dial.min, max: dial.max, reason: limit.reason } };
}

function stays(what: string, why: string, path: string): Finding {
  return warning('limit-not-taken', path, { what, why, cure: 'Change the limit, or take it back.' });
}

function standsStill({ name, leastBecause }: PlannedDial, path: string): Finding {
  return warning('limit-not-taken', path, {
    what: `"${name}" stands still; its limits are not used.`,
    why: leastBecause ?? 'The site needs it to be exactly as it is.',
    cure: 'Take the limits back.',
  });
}

function noSuchTime(site: string, id: string, path: string): Finding {
  return warning('not-used', path, {
    what: `${site} has no time "${id}"; its limits are not used.`,
    why: 'The site has changed since they were set.',
    cure: 'Take them out.',
  });
}
