/** Builds the panel when its sources are newer than what was built. */
import { readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { build } from 'vite';

const SOURCES = ['renderer', 'shared', 'vite.config.ts', 'package-lock.json'];

export async function ensurePanel(root: string, panelFolder: string): Promise<void> {
  const built = changedAt(join(panelFolder, 'index.html'));
  const newest = Math.max(...SOURCES.map((source) => newestIn(join(root, source))));
  if (built > newest) return;
  console.log('Building the panel ...');
  await build({ configFile: join(root, 'vite.config.ts'), logLevel: 'warn' });
}

function newestIn(path: string): number {
  const stats = statSync(path, { throwIfNoEntry: false });
  if (!stats?.isDirectory()) return stats?.mtimeMs ?? 0;
  return Math.max(stats.mtimeMs, ...readdirSync(path).map((name) => newestIn(join(path, name))));
}

/** Zero when there is no such file. */
function changedAt(file: string): number {
  return statSync(file, { throwIfNoEntry: false })?.mtimeMs ?? 0;
}
