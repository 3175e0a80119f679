/** Times of a crossing or shuttle against the rules of the practice. */
import type { Finding } from '../../findings/finding.ts';
import { missingFinding, type PracticeKind } from '../../practice/missing.ts';
import type { FlashRule, Practice, TimeRule } from '../../practice/practice.ts';
import { checkTime } from '../checks.ts';
import { checkRate } from './lamp-parts.ts';

/** As `checkTime`; a range that is only from memory is no ground for a warning. */
export function checkRule(value: number | undefined, rule: TimeRule, path: string): Finding[] {
  const known = rule.range?.confidence === 'memory' ? { ...rule, range: null } : rule;
  return checkTime(value, known, path);
}

/** Rate and share of lamps that flash, lit and dark times in ms; nothing where no published rule is known. */
export function checkFlash(on: number, off: number, rule: FlashRule | null, path: string): Finding[] {
  if (rule === null || rule.perMinute.confidence === 'memory') return [];
  return checkRate(on, on + off, rule, path);
}

/** A kind of site that was not there in the country and era of the layout. */
export function checkExists(practice: Practice, kind: PracticeKind, path: string): Finding[] {
  const found = missingFinding(practice, kind, path);
  return found === null ? [] : [found];
}
