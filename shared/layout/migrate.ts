/**
 * Older documents, brought up to the present version one step at a time.
 * Version 1 is the first; a step is added here, dated, whenever the version rises.
 */
import type { Finding } from '../findings/finding.ts';
import { error, warning } from '../findings/make.ts';
import { LAYOUT_FORMAT, LAYOUT_VERSION } from './schema.ts';

type Document = Record<string, unknown>;

/** `MIGRATIONS.get(n)` turns a document of version n into one of version n + 1. */
export const MIGRATIONS: ReadonlyMap<number, (document: Document) => Document> = new Map();

export type Migrated =
  /** `newer`: of a later version, taken for one of this; its warning. */
  | { readonly ok: true; readonly document: Document; readonly newer?: Finding }
  | { readonly ok: false; readonly finding: Finding };

/**
 * Checks that `value` is a layout document at all, and lifts it to
 * `LAYOUT_VERSION`; one of a later version is brought down by its number only. `steps` and `version` are open for tests.
 */
export function migrate(value: unknown, steps = MIGRATIONS, version: number = LAYOUT_VERSION): Migrated {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return refuse(notAnObject(value));
  let document = value as Document;
  if (document.format !== LAYOUT_FORMAT) return refuse(wrongFormat(document.format));
  const found = document.version;
  if (typeof found !== 'number' || !Number.isInteger(found) || found < 1) return refuse(badVersion(found));
  if (found > version) return { ok: true, document: { ...document, version }, newer: newerFinding(found, version) };
  for (let from = found; from < version; from++) {
    const step = steps.get(from);
    if (step === undefined) return refuse(tooOld(found));
    document = { ...step(document), version: from + 1 };
  }
  return { ok: true, document };
}

function refuse(finding: Finding): Migrated {
  return { ok: false, finding };
}

function notAnObject(value: unknown): Finding {
  const found = Array.isArray(value) ? 'a list' : value === null ? 'null' : `a ${typeof value}`;
  return error('not-a-layout', '', {
    what: `The file holds ${found}, not a layout.`,
    why: 'A layout is one JSON object: it begins with { and ends with }.',
    cure: 'Open another file, or begin with the example.',
  });
}

function wrongFormat(format: unknown): Finding {
  return error('wrong-format', 'format', {
    what: format === undefined ? 'The file does not say that it is a layout.' : `The format is ${quote(format)}.`,
    why: `Only files of the format "${LAYOUT_FORMAT}" can be read.`,
    cure: `If this is a layout, write "format": "${LAYOUT_FORMAT}" at its top.`,
  });
}

function badVersion(version: unknown): Finding {
  return error('wrong-version', 'version', {
    what: version === undefined ? 'The version is missing.' : `${quote(version)} is no version of the format.`,
    why: 'The version says how the rest of the file is to be read.',
    cure: `Write "version": ${LAYOUT_VERSION}.`,
  });
}

function newerFinding(found: number, version: number): Finding {
  return warning('newer-version', 'version', {
    what: `The file has version ${found}; this Amberwick knows versions up to ${version}.`,
    why: 'A newer Amberwick wrote it. What this one does not know is not used; it is listed where it stands.',
    cure: 'Update Amberwick to have all of it. Here it is saved under another name, so that the file stays whole.',
  });
}

function tooOld(found: number): Finding {
  return error('wrong-version', 'version', {
    what: `The file has version ${found}, which can no longer be brought up to date.`,
    why: 'There is no step from this version to the next.',
    cure: 'Open and save it once with an older Amberwick.',
  });
}

function quote(value: unknown): string {
  return JSON.stringify(value)?.slice(0, 40) ?? 'nothing';
}
