/** Builds everything and lets electron-builder pack it for the system that this computer runs. */
import { parseArgs } from 'node:util';
import { build, Platform } from 'electron-builder';
import { packageConfig } from '../../electron/package/config.ts';
import { buildParts } from './parts.ts';

const USAGE = `npm run package -- [--dir]
  --dir   only the folder that the package is made of, to look at or to start from`;

/** Returns the exit code. */
export async function main(args: readonly string[], root: string): Promise<number> {
  const options = read(args);
  if (!options) {
    console.error(USAGE);
    return 2;
  }
  try {
    await buildParts(root);
    const made = await build({
      projectDir: root,
      config: packageConfig(root),
      targets: Platform.current().createTarget(options.dir ? 'dir' : null),
      publish: 'never',
    });
    console.log(made.length > 0 ? `Made ${made.join(', ')}` : 'Made the folder in build/packages');
    return 0;
  } catch (error) {
    console.error(`No package was made: ${(error as Error).message}`);
    console.error(
      'Electron and the tools of electron-builder are fetched when they are needed first; that takes the net.',
    );
    return 1;
  }
}

function read(args: readonly string[]) {
  try {
    return parseArgs({ args: [...args], options: { dir: { type: 'boolean' } } }).values;
  } catch {
    return null;
  }
}
