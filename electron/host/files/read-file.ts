/** Reads a layout file as text, or says why it cannot be one. */
import { readFileSync, statSync } from 'node:fs';
import type { Problem } from '../../../shared/workbench/contract.ts';
import { describeProblem } from '../../../shared/workbench/problems.ts';

/** As `openText` takes it. */
const LARGEST = 4_000_000;

export type ReadFile = { readonly ok: true; readonly text: string } | { readonly ok: false; readonly problem: Problem };

export function readLayoutFile(path: string, name: string): ReadFile {
  const refuse = (cause: string): ReadFile => ({
    ok: false,
    problem: describeProblem('fileUnreadable', { file: name, cause }),
  });
  try {
    const stats = statSync(path);
    if (!stats.isFile()) return refuse('It is a folder or a device.');
    if (stats.size > LARGEST) return refuse('It is larger than 4 MB, and no layout is.');
    return { ok: true, text: new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(readFileSync(path)) };
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === 'ENOENT' || code === 'ENOTDIR')
      return { ok: false, problem: describeProblem('fileGone', { file: name }) };
    if (code === 'EACCES' || code === 'EPERM') return refuse('This user may not read it.');
    if (error instanceof TypeError) return refuse('It is not text in UTF-8.');
    return refuse(`The system says: ${(error as Error).message}.`);
  }
}

/** The text of a file as it is now; null where it cannot be read. */
export function textNow(path: string): string | null {
  const read = readLayoutFile(path, path);
  return read.ok ? read.text : null;
}
