/** From the text of a file to a layout, or to findings that say what is wrong with it. */
import type { Finding } from '../findings/finding.ts';
import { error } from '../findings/make.ts';
import { type JsonFault, readJson } from './json.ts';
import { migrate } from './migrate.ts';
import { understand } from './newer.ts';
import { type Layout, LayoutSchema } from './schema.ts';
import { translateIssues } from './translate.ts';
import { withoutUnknown, withUnknown } from './unknown.ts';

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

/** The same for a value that is already out of its JSON. Fields that are not known stay in the layout. */
export function readLayout(value: unknown): Parsed {
  const migrated = migrate(value);
  if (!migrated.ok) return { layout: null, findings: [migrated.finding] };
  const { document, newer } = migrated;
  const first = LayoutSchema.safeParse(document);
  const told = newer === undefined ? [] : [newer];
  if (first.success) return { layout: first.data, findings: told };
  const findings = [...told, ...translateIssues(first.error.issues, document)];
  const cleaned = withoutUnknown(document, first.error.issues);
  const second = LayoutSchema.safeParse(cleaned);
  if (second.success) return { layout: withUnknown(second.data, document), findings };
  if (newer !== undefined) {
    const understood = understand(document);
    if (understood) {
      const unknown = findings.filter(({ severity }) => severity === 'warning');
      return { layout: understood.layout, findings: [...unknown, ...understood.findings] };
    }
  }
  if (findings.some(({ severity }) => severity === 'error')) return { layout: null, findings };
  return { layout: null, findings: [...findings, ...translateIssues(second.error.issues, cleaned)] };
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
