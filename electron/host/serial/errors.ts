/** Why a serial device could not be opened, from the words that the systems use for it. */
import { readFile, stat } from 'node:fs/promises';
import { userInfo } from 'node:os';

export interface OpenError {
  readonly kind: 'missing' | 'busy' | 'denied' | 'notSerial' | 'failed';
  /** For `denied`: the group that may open the device, where joining it would help. */
  readonly group?: string;
  /** For `denied`: this user is in that group already, but not yet in this login. */
  readonly joined?: true;
  /** The system's own words. */
  readonly detail: string;
}

/** What the system lets this program do. */
export interface Account {
  /** Null where the system has no name for this user. */
  readonly name: string | null;
  /** Numbers of the groups that this program runs with. */
  readonly groups: readonly number[];
  /** Contents of /etc/group. */
  readonly groupFile: string;
}

/** Which kind a failure is. The lock is the serial library's; it fails where another program has the same port. */
export function openErrorKind(message: string): OpenError['kind'] {
  if (/cannot lock port|resource busy|EBUSY|access denied|error code 5\b/i.test(message)) return 'busy';
  if (/permission denied|not permitted|EACCES|EPERM/i.test(message)) return 'denied';
  if (/no such (file|device)|device not configured|ENOENT|ENXIO|ENODEV|file not found|error code 2\b/i.test(message)) {
    return 'missing';
  }
  if (/inappropriate ioctl|is a directory|not a typewriter|ENOTTY|EISDIR/i.test(message)) return 'notSerial';
  return 'failed';
}

/** The same with what the device node tells about it. Never throws. */
export async function explainOpening(path: string, message: string, account?: Account): Promise<OpenError> {
  const kind = openErrorKind(message);
  if (kind !== 'denied' || process.platform === 'win32') return { kind, detail: message };
  return { kind, detail: message, ...(await explainDenial(path, account ?? (await thisAccount()))) };
}

/** The owning group differs by distribution. It is named only where being in it would open the device. */
async function explainDenial(path: string, account: Account): Promise<{ group?: string; joined?: true }> {
  try {
    const { gid, mode } = await stat(path);
    const isForGroup = (mode & 0o060) === 0o060;
    // Nobody should be told to join the group of the superuser.
    if (!isForGroup || gid === 0 || account.groups.includes(gid)) return {};
    const fields = account.groupFile.split('\n').map((entry) => entry.split(':'));
    const line = fields.find(([, , id]) => id === String(gid));
    const members = line?.[3]?.split(',') ?? [];
    const joined = account.name !== null && members.includes(account.name);
    return { group: line?.[0] ?? String(gid), ...(joined ? { joined: true as const } : {}) };
  } catch {
    return {};
  }
}

async function thisAccount(): Promise<Account> {
  const groupFile = await readFile('/etc/group', 'utf8').catch(() => '');
  const own = process.getegid?.();
  return {
    name: userName(),
    groups: [...(process.getgroups?.() ?? []), ...(own === undefined ? [] : [own])],
    groupFile,
  };
}

function userName(): string | null {
  try {
    return userInfo().username;
  } catch {
    return null;
  }
}
