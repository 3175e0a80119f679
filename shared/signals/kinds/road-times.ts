/** Times of a crossing or shuttle against the rules of the practice. */
import type { Finding } from '../../findings/finding.ts';
import { warning } from '../../findings/make.ts';
import type { Fact, FlashRule, Practice, TimeRule } from '../../practice/practice.ts';
import { checkTime } from '../checks.ts';
import { seconds } from '../names.ts';

/** As `checkTime`; a range that is only from memory is no ground for a warning. */
export function checkRule(value: number | undefined, rule: TimeRule, path: string): Finding[] {
  const known = rule.range?.confidence === 'memory' ? { ...rule, range: null } : rule;
  return checkTime(value, known, path);
}

/** How fast lamps flash, from the lit and the dark time, ms. `path` is the place of a time that the site names. */
export function checkFlash(on: number, off: number, rule: FlashRule | null, path: string): Finding[] {
  if (rule === null || rule.perMinute.confidence === 'memory') return [];
  const perMinute = 60000 / (on + off);
  const [least, most] = rule.perMinute.value;
  if (perMinute >= least && perMinute <= most) return [];
  return [
    warning('flash-rate', path, {
      what: `Lamps that are lit for ${seconds(on)} and dark for ${seconds(off)} flash ${Math.round(perMinute)} times a minute.`,
      why: `Between ${least} and ${most} it would look right (${rule.perMinute.source}).`,
      cure: 'Take both times out to get the usual ones, or leave them if you like it so.',
    }),
  ];
}

/** Something that was not there in the country and era of the layout. */
export function checkExists(exists: Fact<boolean>, what: string, path: string, practice: Practice): Finding[] {
  if (exists.value) return [];
  return [
    warning('not-in-practice', path, {
      what: `${what} are not part of the practice "${practice.name}".`,
      why: `A visitor from there would wonder (${exists.source}).`,
      cure: 'Leave it if you like it so, or choose another practice.',
    }),
  ];
}

/** A field of the document that has no effect. */
export function notUsed(path: string, field: string, because: string): Finding {
  return warning('not-used', path, {
    what: `"${field}" is not used here.`,
    why: because,
    cure: 'Take it out.',
  });
}
