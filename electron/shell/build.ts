/**
 * Bundles the shell: the main program and the worker of the virtual board as
 * modules, the preload as the single CommonJS file that a sandbox can load.
 * The folder has to be three levels below the root, as the sources are, for the
 * firmware images are found from there.
 */
import { builtinModules } from 'node:module';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'vite';

const electron = join(dirname(fileURLToPath(import.meta.url)), '..');

const PARTS = {
  main: { entry: join(electron, 'main.ts'), format: 'es', file: 'main.js' },
  worker: { entry: join(electron, 'host', 'virtual', 'worker.ts'), format: 'es', file: 'worker.js' },
  preload: { entry: join(electron, 'preload.ts'), format: 'cjs', file: 'preload.cjs' },
} as const;

export type ShellPart = keyof typeof PARTS;

/** Native or optional parts that are loaded from node_modules as they are. */
const OUTSIDE = ['electron', 'serialport', /^@serialport\//, 'bufferutil', 'utf-8-validate'];
const NODE = [...builtinModules, /^node:/];

export async function buildShell(outDir: string, parts: readonly ShellPart[] = ['main', 'worker', 'preload']) {
  for (const part of parts) {
    const { entry, format, file } = PARTS[part];
    await build({
      configFile: false,
      logLevel: 'warn',
      // Bundled for Node except the preload, which has no Node at all.
      ...(part === 'preload' ? {} : { ssr: { noExternal: true } }),
      build: {
        outDir,
        emptyOutDir: false,
        minify: false,
        target: 'es2023',
        ...(part === 'preload' ? {} : { ssr: true }),
        lib: { entry, formats: [format], fileName: () => file },
        rolldownOptions: { external: part === 'preload' ? ['electron'] : [...OUTSIDE, ...NODE] },
      },
    });
  }
}
