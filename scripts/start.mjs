// `npm start`: installs what is missing, then opens the panel. With --terminal
// the example runs in the terminal instead.
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { ensurePackages } from './setup/packages.mjs';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
if (!ensurePackages(root)) process.exit(1);
const { register } = await import('tsx/esm/api');
register();
const args = process.argv.slice(2);
const inTerminal = args.includes('--terminal');
const { main } = inTerminal ? await import('./demo/main.ts') : await import('./start/main.ts');
process.exitCode = await main(inTerminal ? args.filter((arg) => arg !== '--terminal') : args, root);
