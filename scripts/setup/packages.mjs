// Installs the npm packages of the lock file when any of them is missing or of
// another version. Plain Node: it runs before there is a node_modules folder.
import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

/** Names of packages in the lock that are not installed as locked; optional ones do not count. */
export function missingPackages(root) {
  const lock = readJson(join(root, 'package-lock.json'));
  const installed = readJson(join(root, 'node_modules', '.package-lock.json'));
  if (!lock) return [];
  return Object.entries(lock.packages)
    .filter(([place, wanted]) => place !== '' && !wanted.optional && !wanted.devOptional)
    .filter(
      ([place, wanted]) =>
        installed?.packages[place]?.version !== wanted.version || !existsSync(join(root, place, 'package.json')),
    )
    .map(([place]) => place.replace(/^.*node_modules\//, ''));
}

/**
 * True when all packages are there afterwards. Install scripts are not run:
 * serialport loads a prebuilt binding, and Electron's binary is fetched only
 * when a window is wanted.
 */
export function ensurePackages(root) {
  const missing = missingPackages(root);
  if (missing.length === 0) return true;
  console.log(`Installing npm packages (${missing.length} missing) ...`);
  const npm = process.platform === 'win32' ? 'npm.cmd' : 'npm';
  const run = spawnSync(npm, ['ci', '--ignore-scripts', '--no-audit', '--no-fund'], {
    cwd: root,
    stdio: 'inherit',
    shell: process.platform === 'win32',
  });
  if (run.status === 0) return true;
  console.error('The npm packages could not be installed. Check the network connection, then try again.');
  return false;
}

function readJson(file) {
  try {
    return JSON.parse(readFileSync(file, 'utf8'));
  } catch {
    return null;
  }
}
