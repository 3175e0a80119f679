// Finds the programs that the tests call, and on Debian (as root) installs them.
import { spawnSync } from 'node:child_process';
import { accessSync, constants, existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';

/** What the tests need: a Debian package and a program or file that proves it is there. */
const TOOLS = [
  { apt: 'gcc-avr', program: 'avr-gcc' },
  { apt: 'avr-libc', file: '/usr/lib/avr/include/avr/io.h' },
  { apt: 'binutils-avr', program: 'avr-objcopy' },
  { apt: 'simavr', program: 'simavr' },
  { apt: 'libsimavr-dev', file: '/usr/include/simavr/sim_avr.h' },
  { apt: 'socat', program: 'socat' },
  { apt: 'avrdude', program: 'avrdude' },
  { apt: 'chromium', program: 'chromium' },
  { apt: 'xvfb', program: 'Xvfb' },
  { apt: 'poppler-utils', program: 'pdftotext' },
  { apt: 'squashfs-tools', program: 'mksquashfs' },
  { apt: 'desktop-file-utils', program: 'desktop-file-validate' },
  { apt: 'gcc', program: 'gcc' },
  { apt: 'g++', program: 'g++' },
  { apt: 'make', program: 'make' },
];

export function missingTools() {
  return TOOLS.filter((tool) => (tool.program ? !onPath(tool.program) : !existsSync(tool.file))).map(
    (tool) => tool.apt,
  );
}

/** True when every tool is there afterwards. */
export function ensureTools() {
  const missing = missingTools();
  if (missing.length === 0) return true;
  const debianRoot = existsSync('/etc/debian_version') && onPath('apt-get') && process.getuid?.() === 0;
  if (debianRoot) {
    console.log(`Installing ${missing.join(' ')} ...`);
    const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
    spawnSync('apt-get', ['update', '-q'], { stdio: 'inherit', env });
    spawnSync('apt-get', ['install', '-y', '-q', '--no-install-recommends', ...missing], { stdio: 'inherit', env });
  }
  const still = missingTools();
  if (still.length === 0) return true;
  console.error(
    [
      `The tests need programs that are not on this computer: ${still.join(', ')} (names of Debian packages).`,
      debianRoot
        ? 'Installing them failed; the lines above say why.'
        : `On Debian or Ubuntu: sudo apt-get install ${still.join(' ')}`,
    ].join('\n'),
  );
  return false;
}

function onPath(program) {
  return (process.env.PATH ?? '').split(delimiter).some((folder) => {
    try {
      accessSync(join(folder, program), constants.X_OK);
      return true;
    } catch {
      return false;
    }
  });
}
