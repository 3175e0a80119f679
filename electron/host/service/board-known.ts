/** What is known of a board while it answers: its tables, flags, faults and holds. */
import { capital } from '../../../shared/findings/capital.ts';
import type { Snapshot, BoardState as ToldState } from '../../../shared/link/requests.ts';
import type { BoardState } from '../../../shared/workbench/contract.ts';
import { faultCode } from './board-events.ts';
import type { BoardPlan } from './document.ts';
import { type Comparison, compareImages, withDial } from './images.ts';
import type { Report } from './live-view.ts';
import { siteName } from './sentences.ts';

export class BoardKnown {
  /** Undefined while not known, null where there is no table. */
  running: Uint8Array | null | undefined = undefined;
  kept: Uint8Array | null | undefined = undefined;
  keeps = 0;
  flags: Snapshot['flags'] = new Set();
  private master = 'run';
  private held: boolean[] = [];
  private faults: number[] = [];
  /** What it last told of itself; null while nobody answers. */
  told: ToldState | null = null;
  /** Supply that was told since, mV. */
  private supply: number | null = null;
  /** Dials turned while the running image is being read: what was read may be older. */
  private turnedMeanwhile: { readonly site: number; readonly dial: number; readonly ms: number }[] = [];

  /** How the tables compare with the open layout. */
  compare(plan: BoardPlan): { readonly running: Comparison; readonly kept: Comparison } {
    const wanted = plan.image?.bytes ?? null;
    return { running: compareImages(this.running, wanted), kept: compareImages(this.kept, wanted) };
  }

  /** The part of the board state that the board itself has told. */
  state(plan: BoardPlan) {
    const { running, kept } = this.compare(plan);
    return {
      running: running.match,
      kept: kept.match,
      runningDials: running.dials,
      keptDials: kept.dials,
      unkept: this.flags.has('unkept'),
      paused: this.flags.has('paused'),
      held: [...this.held],
      faults: [...this.faults],
      master: this.master,
      keeps: this.keeps,
      supplyMillivolts: this.supply ?? this.told?.millivolts ?? null,
      resetCause: this.told?.cause ?? 'unknown',
    } satisfies Partial<BoardState>;
  }

  take(report: Report): void {
    this.takeFlags(report.snap);
    this.held = report.sites.map(({ site }) => site.flags.has('held'));
    this.faults = report.sites.map(({ site }) => faultCode(site.fault));
  }

  takeFlags(snap: Snapshot): void {
    this.flags = snap.flags;
    this.master = snap.master;
  }

  takeTold(told: ToldState): void {
    this.told = told;
    this.keeps = told.keeps;
    this.supply = null;
  }

  supplyTold(millivolts: number): void {
    this.supply = millivolts;
  }

  /** From now on `dialTurned` is newer than what is read. */
  beginReading(): void {
    this.turnedMeanwhile = [];
  }

  takeImages(running: Uint8Array | null | undefined, kept: Uint8Array | null | undefined): void {
    this.running = running;
    this.kept = kept;
    for (const { site, dial, ms } of this.turnedMeanwhile) this.turn(site, dial, ms);
  }

  /** The board has confirmed a dial. */
  dialTurned(site: number, dial: number, ms: number): void {
    this.turn(site, dial, ms);
    this.turnedMeanwhile.push({ site, dial, ms });
  }

  /** Nobody answers any more. */
  forget(): void {
    this.running = undefined;
    this.kept = undefined;
    this.flags = new Set();
    this.held = [];
    this.faults = [];
    this.master = 'run';
    this.told = null;
    this.supply = null;
  }

  /** What the host has laid upon the board and ends with its silence, as the subject of a sentence; null for nothing. */
  hostEffects(plan: BoardPlan): string | null {
    const held = this.held.flatMap((isHeld, site) => (isHeld ? [siteName(plan, site)] : []));
    const parts = [
      ...(held.length > 0 ? [`the hold of ${held.join(', ')}`] : []),
      ...(this.flags.has('paused') ? ['the pause'] : []),
      ...(this.flags.has('override') ? ['overrides'] : []),
    ];
    const text = parts.join(' and ');
    return text === '' ? null : capital(text);
  }

  private turn(site: number, dial: number, ms: number): void {
    if (this.running) this.running = withDial(this.running, site, dial, ms);
  }
}
