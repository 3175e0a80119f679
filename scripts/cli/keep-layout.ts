/** A changed layout to a file: what commands with `-o` end with. */
import { writeWhole } from '../../electron/host/whole-file.ts';
import { type Finding, hasErrors } from '../../shared/findings/finding.ts';
import type { Layout } from '../../shared/layout/schema.ts';
import { writeLayout } from '../../shared/layout/write.ts';
import { compileLayout } from '../../shared/signals/compile.ts';
import { describeProblem } from '../../shared/workbench/problems.ts';
import type { Report } from './output.ts';

/**
 * The report of a command that changed a layout. Nothing is written where the
 * changed layout has errors, or where no file is named.
 */
export function reportLayout(
  layout: Layout,
  output: string | undefined,
  told: readonly Finding[],
  { data = {}, text = [] }: Pick<Report, 'data' | 'text'>,
): Report {
  const findings = [...told, ...compileLayout(layout).findings];
  const same = (one: Finding, other: Finding): boolean =>
    one.code === other.code && one.path === other.path && one.what === other.what;
  const once = findings.filter((one, index) => findings.findIndex((other) => same(one, other)) === index);
  if (output === undefined || hasErrors(once)) return { exit: hasErrors(once) ? 1 : 0, findings: once, data, text };
  try {
    writeWhole(output, writeLayout(layout));
  } catch (error) {
    const detail = error instanceof Error ? error.message : String(error);
    const words = {
      what: `${output} could not be written.`,
      why: 'The folder may be missing or protected, or the disk full.',
      next: 'Choose another place for the file.',
    };
    const problem = { ...describeProblem('hostFailed', {}), code: 'notWritten', ...words, detail };
    return { exit: 1, findings: once, problem, data };
  }
  return { exit: 0, findings: once, data: { ...data, file: output }, text: [...text, `Wrote ${output}.`] };
}

/** An argument that was not understood. */
export function misread(what: string, next: string): Report {
  return { exit: 2, problem: { code: 'misread', what, why: 'The command could not be understood.', next } };
}

/** `400,250` as numbers; null where one of them is none. */
export function readList(text: string): number[] | null {
  const parts = text.split(',').map((part) => part.trim());
  const numbers = parts.map(Number);
  return parts.every((part) => part !== '') && numbers.every(Number.isFinite) ? numbers : null;
}
