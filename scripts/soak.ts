/**
 * The long proofs: the same tests as in `npm test`, run for much longer.
 * `npm run soak -- [--hours H] [--runs N] [--seed S]`; the results are written
 * to build/soak.json.
 */
import { spawnSync } from 'node:child_process';
import { mkdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';

const root = fileURLToPath(new URL('..', import.meta.url));
const { values } = parseArgs({
  options: {
    hours: { type: 'string', default: '24' },
    runs: { type: 'string', default: '100000' },
    seed: { type: 'string' },
  },
});

mkdirSync(`${root}build`, { recursive: true });
console.log(`${values.hours} emulated hours of the example, ${values.runs} random tables; results in build/soak.json`);
const run = spawnSync(
  process.execPath,
  [
    'node_modules/vitest/vitest.mjs',
    'run',
    '--reporter=default',
    '--reporter=json',
    '--outputFile.json=build/soak.json',
    '--testTimeout=36000000',
    'test/timing/edges.test.ts',
    'test/interpreter/agree.test.ts',
  ],
  {
    cwd: root,
    stdio: 'inherit',
    env: {
      ...process.env,
      AMBERWICK_HOURS: values.hours,
      AMBERWICK_RUNS: values.runs,
      ...(values.seed ? { AMBERWICK_SEED: values.seed } : {}),
    },
  },
);
process.exitCode = run.status ?? 1;
