/** Which findings belong to a lamp, and which to a board as a whole. */
import type { Finding } from '../../shared/findings/finding.ts';

export function findingsOfLamp(findings: readonly Finding[], path: string): Finding[] {
  return findings.filter((finding) => finding.path === path || finding.path.startsWith(`${path}.`));
}

/** `index` of the board in the layout. */
export function findingsOfBoard(findings: readonly Finding[], index: number): Finding[] {
  const place = `boards[${index}]`;
  return findings.filter(({ path }) => path === place || path.startsWith(`${place}.`));
}
