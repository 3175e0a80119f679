import { expect } from 'vitest';
import type { Finding } from '../../shared/findings/finding.ts';
import { parseLayout } from '../../shared/layout/parse.ts';
import { compileLayout } from '../../shared/signals/compile.ts';
import { encodeTable } from '../../shared/table/encode.ts';
import { type Edits, edited, type Loose } from './small.ts';

/** Everything that a user is told from the text of a file to the image of its boards. */
export function findingsOf(text: string): Finding[] {
  const { layout, findings } = parseLayout(text);
  if (layout === null) return findings;
  const compiled = compileLayout(layout);
  const images = compiled.boards.flatMap((board) => encodeTable(board.table).findings);
  return [...findings, ...compiled.findings, ...images];
}

/** A kind of mistake: what is written where, and severity, code and path of the one finding. */
export type Mistake = readonly [kind: string, edits: Edits, finding: string];

export function expectOneFinding(layout: Loose, edits: Edits, expected: string): void {
  const findings = findingsOf(JSON.stringify(edited(layout, edits)));
  expect(findings.map(({ severity, code, path }) => `${severity} ${code} ${path}`)).toEqual([expected]);
  for (const text of findings.flatMap(({ what, why, cure }) => [what, why, cure])) {
    expect(text).toMatch(/^["A-Z0-9].*[.]$/);
    expect(text).not.toMatch(/undefined|null|NaN|\[object/);
  }
}
