/** One thing that a user can be told about a layout, a table or a board. */
export interface Finding {
  /** error: cannot be used so; warning: works, but probably not as meant; note: worth knowing. */
  readonly severity: 'error' | 'warning' | 'note';
  /** Stable short name, for tests and for help pages. */
  readonly code: string;
  /** Place in the layout, such as `sites[1].stages[0].minGreen`; empty for the whole file. */
  readonly path: string;
  /** What is wrong, in plain words. */
  readonly what: string;
  /** Why it matters. */
  readonly why: string;
  /** How to mend it. */
  readonly cure: string;
}

export function hasErrors(findings: readonly Finding[]): boolean {
  return findings.some((finding) => finding.severity === 'error');
}
