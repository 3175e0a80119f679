import type { Finding } from '../../shared/findings/finding.ts';
import type { Problem } from '../../shared/workbench/contract.ts';

/** A finding where something was asked for and could not be done. */
export function problemOf({ code, what, why, cure }: Finding): Problem {
  return { code, what, why, next: cure };
}
