/**
 * Where a lost board may be: at its old port, or at one that came since it was
 * lost. Ports that were there before are somebody else's: opening one would
 * reset the device behind it. What turned out to be no board of ours is left
 * alone until it is plugged in anew.
 */
import type { Who } from '../../../shared/link/requests.ts';
import { isBlank } from '../book/board-book.ts';

/**
 * So often in vain before a port is left alone. Right after plugging in, the system may not have given the device to its
 * group yet, which takes it seconds at most; a device that does not greet within its six seconds hardly ever does.
 */
const TRIES = { opening: 10, greeting: 2 } as const;

export class Suspects {
  private readonly appeared: (after: number) => readonly string[];
  private readonly lostAt: number;
  private readonly tries = new Map<string, number>();
  private readonly leftAlone = new Map<string, number>();

  /** `lostAt`: when the board was heard last. */
  constructor(appeared: (after: number) => readonly string[], lostAt: number) {
    this.appeared = appeared;
    this.lostAt = lostAt;
  }

  /** The old port first. */
  list(own: string): readonly string[] {
    return [...new Set([own, ...this.appeared(this.lostAt)])].filter((port) => !this.isLeftAlone(port));
  }

  isLeftAlone(port: string): boolean {
    const since = this.leftAlone.get(port);
    return since !== undefined && !this.appeared(since).includes(port);
  }

  leaveAlone(port: string, now: number): void {
    this.leftAlone.set(port, now);
    this.tries.delete(port);
  }

  failed(port: string, what: keyof typeof TRIES, now: number): void {
    const tries = (this.tries.get(port) ?? 0) + 1;
    this.tries.set(port, tries);
    if (tries >= TRIES[what]) this.leaveAlone(port, now);
  }
}

/** Whether this is the board that was there before. One without identity is taken for it only where it was. */
export function isSameBoard(before: Who, found: Who, isOldPort: boolean): boolean {
  if (isBlank(before.identity)) return isBlank(found.identity) && isOldPort && before.name === found.name;
  return before.identity === found.identity;
}
