/**
 * Lamps and rows of one board as far as events and snapshots tell. Both come
 * over the same line, but answers are handled a moment after events of the same
 * packet, so the board's own time decides which is newer.
 */
import type { SiteSnapshot, Snapshot } from '../../../shared/link/requests.ts';
import type { LiveState } from '../../../shared/workbench/contract.ts';

interface RunningRow {
  readonly row: number;
  readonly began: number;
}

export interface SiteReport {
  readonly site: SiteSnapshot;
  /** Board time before and after the question. */
  readonly from: number;
  readonly to: number;
}

export interface Report {
  readonly snap: Snapshot;
  readonly sites: readonly SiteReport[];
}

/** Board time is 32 bits and wraps. */
export function after(later: number, earlier: number): number {
  return (later - earlier) | 0;
}

export class LiveView {
  ms = 0;
  private lit = '';
  private litAt: number | null = null;
  private rows: RunningRow[] = [];

  clear(): void {
    this.ms = 0;
    this.lit = '';
    this.litAt = null;
    this.rows = [];
  }

  state(board: string, glow: LiveState['glow'] = null): LiveState {
    return { board, ms: this.ms, lit: this.lit, rows: [...this.rows], glow };
  }

  row(site: number): number | null {
    return this.rows[site]?.row ?? null;
  }

  /** Gives back the lamps as the contract writes them. */
  lampsChanged(ms: number, lit: readonly boolean[]): string {
    this.notice(ms);
    this.lit = litDigits(lit);
    this.litAt = ms;
    return this.lit;
  }

  rowEntered(ms: number, site: number, row: number): void {
    this.notice(ms);
    this.rows[site] = { row, began: ms };
  }

  notice(ms: number): void {
    if (after(ms, this.ms) > 0) this.ms = ms;
  }

  /** Takes over what a snapshot says wherever no event is newer. */
  merge({ snap, sites }: Report): void {
    if (this.litAt === null || after(snap.ms, this.litAt) > 0) this.lit = litDigits(snap.lit);
    this.notice(snap.ms);
    this.rows = sites.map((report, index) => {
      this.notice(report.to);
      return newer(this.rows[index], report);
    });
  }
}

function newer(known: RunningRow | undefined, { site, from, to }: SiteReport): RunningRow {
  const earliest = (from - site.elapsed) >>> 0;
  const latest = (to - site.elapsed) >>> 0;
  const estimate = { row: site.row, began: (earliest + (after(latest, earliest) >> 1)) >>> 0 };
  if (!known) return estimate;
  // Entered after the question was asked, so the answer is about the row before.
  if (known.row !== site.row) return after(known.began, from) >= 0 ? known : estimate;
  // The event gives the exact moment; only a hold or a delayed start moves the begin away from it.
  const isExact = after(known.began, earliest) >= -1 && after(latest, known.began) >= -1;
  return isExact ? known : estimate;
}

/** Lit lamps as hexadecimal digits, lamp 0 in bit 0 of the last. */
export function litDigits(lit: readonly boolean[]): string {
  let digits = '';
  for (let at = 0; at < lit.length; at += 4) {
    const value = [0, 1, 2, 3].reduce((sum, bit) => sum + (lit[at + bit] ? 1 << bit : 0), 0);
    digits = value.toString(16).toUpperCase() + digits;
  }
  return digits || '0';
}
