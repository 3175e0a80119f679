/** What an entry is about, for filters. An entry may be about several things: a lost connection is trouble, too. */
import type { LogEntry, LogKind } from '../contract.ts';

export type Group =
  | 'times'
  | 'keeps'
  | 'running'
  | 'layout'
  | 'sending'
  | 'connection'
  | 'checks'
  | 'trouble'
  | 'notes'
  | 'session';

/** In the order in which filters stand; the name is what a person reads. */
export const GROUPS: readonly { readonly id: Group; readonly name: string; readonly hint: string }[] = [
  { id: 'times', name: 'Times', hint: 'Times that were changed, and limits that were set aside.' },
  { id: 'keeps', name: 'Keeps', hint: 'What was kept on a board, and what was put back.' },
  { id: 'notes', name: 'Notes', hint: 'What you wrote yourself, and photos.' },
  { id: 'trouble', name: 'Trouble', hint: 'Faults, refusals and lost connections, with what was said on the line.' },
  { id: 'connection', name: 'Connection', hint: 'Boards that came and went, their power and their starts.' },
  { id: 'checks', name: 'Checks', hint: 'Lamp checks and wiring faults to practise on.' },
  { id: 'layout', name: 'Layout', hint: 'Changes of the plan, and files that were opened.' },
  { id: 'sending', name: 'Sending', hint: 'Layouts and firmware that went to a board.' },
  { id: 'running', name: 'Running', hint: 'Holds, steps, pauses, buttons that were pressed.' },
  { id: 'session', name: 'Starts', hint: 'When Amberwick was started and closed.' },
];

const OF_KIND: Readonly<Record<LogKind, Group>> = {
  start: 'session',
  end: 'session',
  document: 'layout',
  connection: 'connection',
  power: 'connection',
  reset: 'connection',
  upload: 'sending',
  firmware: 'sending',
  nudge: 'times',
  limit: 'times',
  keep: 'keeps',
  putBack: 'keeps',
  control: 'running',
  fault: 'trouble',
  problem: 'trouble',
  check: 'checks',
  remark: 'notes',
  photo: 'notes',
};

/** How the host's sentence begins where a boot loader said no, or said something else than it should. */
export const LOADER_REFUSES = 'The boot loader refuses';
export const LOADER_ODD = 'From the boot loader, not';

/** Whether the sentence of a line tells of a boot loader that said no. */
export function isLoaderTrouble(meaning: string): boolean {
  return meaning.startsWith(LOADER_REFUSES) || meaning.startsWith(LOADER_ODD);
}

/** Causes of a start that nobody wanted. */
const BAD_STARTS: ReadonlySet<unknown> = new Set(['brownout', 'watchdog']);

/** Groups of an entry, its own first. An entry of a kind that this version does not know is about the session. */
export function groupsOf(entry: LogEntry): readonly Group[] {
  const own = OF_KIND[entry.kind] ?? 'session';
  return own !== 'trouble' && isTrouble(entry) ? [own, 'trouble'] : [own];
}

function isTrouble({ kind, data, frames }: LogEntry): boolean {
  // The lines before it are noted only where something went wrong, also where a loader refused.
  if (frames && frames.length > 0) return true;
  return (kind === 'connection' && data?.problem !== undefined) || (kind === 'reset' && BAD_STARTS.has(data?.cause));
}
