/** Where Amberwick keeps session logs and the EEPROMs of virtual boards. */
import { join } from 'node:path';

export interface Surroundings {
  readonly platform: NodeJS.Platform;
  readonly env: Readonly<Record<string, string | undefined>>;
  readonly home: string;
}

/**
 * `AMBERWICK_DATA` wins. Else the place each system has for it: on Linux the
 * XDG Base Directory Specification, version 0.8, where a relative path counts as unset.
 */
export function dataFolder({ platform, env, home }: Surroundings): string {
  if (env.AMBERWICK_DATA) return env.AMBERWICK_DATA;
  if (platform === 'win32') return join(env.LOCALAPPDATA ?? join(home, 'AppData', 'Local'), 'Amberwick');
  if (platform === 'darwin') return join(home, 'Library', 'Application Support', 'Amberwick');
  const xdg = env.XDG_DATA_HOME;
  return join(xdg?.startsWith('/') ? xdg : join(home, '.local', 'share'), 'amberwick');
}
