/**
 * What a command says and how it ends. With `--json` one JSON object goes to
 * standard output, for failures too; without it results go there and
 * everything that is wrong goes to standard error.
 */
import { type Finding, hasErrors } from '../../shared/findings/finding.ts';
import type { Problem } from '../../shared/workbench/contract.ts';

/** 0 fine, 1 findings or failure, 2 input that could not be read (a file, an argument). */
export type ExitCode = 0 | 1 | 2;

export interface Report {
  readonly exit: ExitCode;
  readonly findings?: readonly Finding[];
  readonly problem?: Problem;
  /** Merged into the JSON object. */
  readonly data?: Readonly<Record<string, unknown>>;
  /** Lines for people. */
  readonly text?: readonly string[];
}

/** Where text goes; tests bring their own. */
export interface Console {
  out(text: string): void;
  err(text: string): void;
  /** How far a longer work is; nothing where no person looks. */
  progress(done: number, total: number): void;
}

export function report(
  io: Console,
  json: boolean,
  { exit, findings = [], problem, data = {}, text = [] }: Report,
): ExitCode {
  if (json) {
    const rest = problem ? { problem } : {};
    io.out(`${JSON.stringify({ ok: exit === 0, ...data, findings, ...rest }, null, 2)}\n`);
    return exit;
  }
  for (const finding of findings) io.err(`${findingText(finding)}\n`);
  if (problem) io.err(`${problemText(problem)}\n`);
  if (text.length > 0) io.out(`${text.join('\n')}\n`);
  return exit;
}

function findingText({ severity, path, what, why, cure }: Finding): string {
  return `${severity}${path === '' ? '' : ` at ${path}`}: ${what}\n  ${why}\n  ${cure}`;
}

function problemText({ what, why, next, detail }: Problem): string {
  return `${what}\n  ${why}\n  ${next}${detail === undefined ? '' : `\n  (${detail})`}`;
}

/** Exit code for findings alone: notes are no reason to fail. */
export function exitFor(findings: readonly Finding[]): ExitCode {
  return hasErrors(findings) || findings.some((finding) => finding.severity === 'warning') ? 1 : 0;
}

/** Lines of a table with aligned columns. */
export function columns(rows: readonly (readonly string[])[]): string[] {
  const widths = rows.reduce<number[]>(
    (all, row) => row.map((cell, column) => Math.max(all[column] ?? 0, cell.length)),
    [],
  );
  return rows.map((row) =>
    row
      .map((cell, column) => cell.padEnd(widths[column] ?? 0))
      .join('  ')
      .trimEnd(),
  );
}
