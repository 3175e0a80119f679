// `npm run package`: makes what people install on the system that this computer runs. `-- --dir` stops at the folder
// that a package is made of.
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { ensurePackages } from './setup/packages.mjs';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
if (!ensurePackages(root)) process.exit(1);
const { register } = await import('tsx/esm/api');
register();
const { main } = await import('./package/main.ts');
process.exitCode = await main(process.argv.slice(2), root);
