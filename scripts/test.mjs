// `npm test`: installs what is missing, runs every check and every test, and
// ends with one line that sums them all. Arguments go to vitest.
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { ensurePackages } from './setup/packages.mjs';
import { countTests } from './setup/test-report.mjs';
import { ensureTools } from './setup/tools.mjs';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const total = { passed: 0, failed: 0 };

const ready = ensurePackages(root) && ensureTools();
if (!ready) {
  finish(1);
}

step('format, lint and import direction', 'node_modules/@biomejs/biome/bin/biome', ['check', '.']);
step('types', 'node_modules/typescript/bin/tsc', ['-p', '.']);
step('vocabulary is in step', 'node_modules/tsx/dist/cli.mjs', ['scripts/generate-vocabulary.ts', '--check']);
step('schema of the layout is in step', 'node_modules/tsx/dist/cli.mjs', ['scripts/generate-schema.ts', '--check']);
step('firmware images are in step', 'node_modules/tsx/dist/cli.mjs', ['scripts/build-firmware.ts', '--check']);
tests(process.argv.slice(2));
finish(0);

/** One check that passes or fails as a whole. */
function step(name, script, args) {
  const source = args.find((arg) => arg.startsWith('scripts/'));
  if (source && !existsSync(join(root, source))) return;
  console.log(`\n== ${name}`);
  const run = spawnSync(process.execPath, [script, ...args], { cwd: root, stdio: 'inherit' });
  if (run.status === 0) total.passed += 1;
  else {
    total.failed += 1;
    console.log(`FAILED: ${name}`);
  }
}

function tests(args) {
  console.log('\n== tests');
  const folder = mkdtempSync(join(tmpdir(), 'amberwick-test-'));
  const file = join(folder, 'report.json');
  const vitest = ['node_modules/vitest/vitest.mjs', 'run', '--reporter=default', '--reporter=json'];
  const run = spawnSync(process.execPath, [...vitest, `--outputFile.json=${file}`, ...args], {
    cwd: root,
    stdio: 'inherit',
  });
  const counted = countTests(readIfThere(file), run.status);
  total.passed += counted.passed;
  total.failed += counted.failed;
  rmSync(folder, { recursive: true, force: true });
}

function readIfThere(file) {
  try {
    return readFileSync(file, 'utf8');
  } catch {
    return null;
  }
}

function finish(extra) {
  total.failed += extra;
  console.log(`\n${total.passed} passed, ${total.failed} failed`);
  process.exit(total.failed > 0 ? 1 : 0);
}
