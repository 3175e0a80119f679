/** From the text of a file to a layout, or to findings that say what is wrong with it. */
import type { Finding } from '../findings/finding.ts';
import { error } from '../findings/make.ts';
import { type JsonFault, readJson } from './json.ts';
import { migrate } from './migrate.ts';
import { type Layout, LayoutSchema } from './schema.ts';
import { translateIssues } from './translate.ts';

export interface Parsed {
  /** Null when there is an error among the findings. */
  readonly layout: Layout | null;
  readonly findings: Finding[];
}

/** Never throws. What the document means is checked later, by the compiler. */
export function parseLayout(text: string): Parsed {
  const json = readJson(text);
  if (!json.ok) return { layout: null, findings: [jsonFinding(json.fault)] };
  return readLayout(json.value);
}

/** The same for a value that is already out of its JSON. */
export function readLayout(value: unknown): Parsed {
  const migrated = migrate(value);
  if (!migrated.ok) return { layout: null, findings: [migrated.finding] };
  const first = LayoutSchema.safeParse(migrated.document);
  if (first.success) return { layout: first.data, findings: [] };
  const findings = translateIssues(first.error.issues, migrated.document);
  if (findings.some((finding) => finding.severity === 'error')) return { layout: null, findings };
  // Only unknown keys: the rest of the document is good without them.
  const cleaned = structuredClone(migrated.document);
  for (const issue of first.error.issues) {
    if (issue.code === 'unrecognized_keys') removeKeys(cleaned, issue.path, issue.keys);
  }
  const second = LayoutSchema.safeParse(cleaned);
  if (second.success) return { layout: second.data, findings };
  return { layout: null, findings: [...findings, ...translateIssues(second.error.issues, cleaned)] };
}

function removeKeys(document: unknown, path: readonly PropertyKey[], keys: readonly string[]): void {
  let place = document;
  for (const step of path) place = (place as Record<PropertyKey, unknown>)[step];
  for (const key of keys) delete (place as Record<PropertyKey, unknown>)[key];
}

const CURES: Readonly<Record<JsonFault['code'], string>> = {
  'json-syntax': 'Mend the file at this place.',
  'json-truncated': 'The end of the file is missing: use another copy, or write the rest.',
  'json-duplicate-key': 'Keep one of the two.',
  'json-too-deep': 'Open another file.',
};

function jsonFinding(fault: JsonFault): Finding {
  return error(fault.code, '', {
    what: `Line ${fault.line}, column ${fault.column}: ${fault.what}.`,
    why: 'A layout is a JSON text; it can only be read when it is whole and well formed.',
    cure: CURES[fault.code],
  });
}
