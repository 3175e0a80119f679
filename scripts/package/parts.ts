/** What has to be built before it can be packed: the panel, the shell, and the list of licences. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { build } from 'vite';
import { collectLicences, LICENCES_FILE } from '../../electron/host/about/licences.ts';
import { buildShell } from '../../electron/shell/build.ts';

/** Writes all of it into `dist` of `into`, which is `root` but for tests. */
export async function buildParts(root: string, into = root): Promise<void> {
  await build({
    configFile: join(root, 'vite.config.ts'),
    logLevel: 'warn',
    build: { outDir: join(into, 'dist', 'panel'), emptyOutDir: true },
  });
  await buildShell(join(into, 'dist', 'electron', 'shell'));
  const file = join(into, LICENCES_FILE);
  mkdirSync(dirname(file), { recursive: true });
  writeFileSync(file, JSON.stringify(collectLicences(root)));
}
