/** Which serial devices there are, cheaply: by their names in /dev, without asking anybody about them. */
import { readdir, stat } from 'node:fs/promises';
import { SerialPort } from 'serialport';

/** Names of serial devices, by system, as their drivers give them. Source: common practice. */
const NAMES: Partial<Record<NodeJS.Platform, RegExp>> = {
  linux: /^(tty(S|USB|ACM|AMA|XRUSB|O|MFD|WCH)\d+|rfcomm\d+)$/,
  // Each device has a second name there, cu.*; the library lists this one.
  darwin: /^tty\./,
};

/**
 * Paths of the devices that are there now, and those of `watched` that are, which may lie elsewhere. Rejects where the
 * system does not tell: then nothing is known.
 */
export async function presentPorts(watched: readonly string[]): Promise<readonly string[]> {
  const names = NAMES[process.platform];
  if (!names) return (await SerialPort.list()).map(({ path }) => path);
  const found = new Set((await readdir('/dev')).filter((name) => names.test(name)).map((name) => `/dev/${name}`));
  for (const path of watched) {
    if (!found.has(path) && (await isThere(path))) found.add(path);
  }
  return [...found];
}

/** A link whose target is gone is not there. */
async function isThere(path: string): Promise<boolean> {
  try {
    return (await stat(path)).isCharacterDevice();
  } catch (error) {
    // That it may not be asked for does not mean that it is gone.
    return (error as NodeJS.ErrnoException).code === 'EACCES';
  }
}
