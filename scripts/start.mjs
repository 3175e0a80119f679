// `npm start`: installs what is missing, then runs the example on the virtual board.
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { ensurePackages } from './setup/packages.mjs';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
if (!ensurePackages(root)) process.exit(1);
const { register } = await import('tsx/esm/api');
register();
const { main } = await import('./demo/main.ts');
process.exitCode = await main(process.argv.slice(2));
