/** Folders in the place of tools that electron-builder would fetch. */
import { execFileSync } from 'node:child_process';
import { mkdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

/** Stands where the runtime of an AppImage would: the part before the file system in it. */
export const RUNTIME = '#!/bin/sh\n# in the place of the runtime\n';

/** Tools for an AppImage: those of the system, with a stand-in for the runtime. */
export function appImageTools(folder: string): string {
  mkdirSync(join(folder, 'runtimes'), { recursive: true });
  mkdirSync(join(folder, 'lib', 'x64'), { recursive: true });
  for (const tool of ['mksquashfs', 'desktop-file-validate']) symlinkSync(which(tool), join(folder, tool));
  writeFileSync(join(folder, 'runtimes', 'runtime-x64'), RUNTIME);
  return folder;
}

function which(program: string): string {
  return execFileSync('which', [program], { encoding: 'utf8' }).trim();
}
