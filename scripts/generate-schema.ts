/**
 * Writes shared/layout/layout.schema.json from the schema of the layout. With `--check` it writes nothing and exits 1
 * when the file differs from what it would write.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { layoutJsonSchema } from '../shared/layout/json-schema.ts';
import { writeJson } from '../shared/layout/write.ts';

const path = fileURLToPath(new URL('../shared/layout/layout.schema.json', import.meta.url));

/** Whether the file was other than its source; it is written unless `check`. */
export function renew(check: boolean): boolean {
  const wanted = writeJson(layoutJsonSchema());
  if (read() === wanted) return false;
  if (!check) writeFileSync(path, wanted);
  return true;
}

function read(): string | null {
  try {
    return readFileSync(path, 'utf8');
  } catch {
    return null;
  }
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const check = process.argv.includes('--check');
  if (renew(check)) {
    console.log(check ? 'shared/layout/layout.schema.json differs from its source: npm run schema' : 'wrote it');
    if (check) process.exitCode = 1;
  }
}
