/** What this computer runs, as far as it matters to serial ports. Nothing of who sits at it. */
import { createRequire } from 'node:module';
import { release } from 'node:os';

export interface SystemFacts {
  readonly platform: string;
  readonly arch: string;
  /** Versions; null where there is none of it. */
  readonly node: string;
  readonly electron: string | null;
  readonly serialport: string | null;
  /** As the system tells it. */
  readonly release: string;
}

export function systemFacts(): SystemFacts {
  const { platform, arch, versions } = process;
  return {
    platform,
    arch,
    node: versions.node,
    electron: versions.electron ?? null,
    serialport: serialportVersion(),
    release: release(),
  };
}

function serialportVersion(): string | null {
  try {
    return String(createRequire(import.meta.url)('serialport/package.json').version);
  } catch {
    return null;
  }
}
