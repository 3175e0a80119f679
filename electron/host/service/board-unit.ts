/** One board of the layout as the host knows it: its link, what it runs and keeps, what it shows. */
import type { BoardEvent } from '../../../shared/link/events.ts';
import { ask, type Snapshot, type BoardState as ToldState, type Who } from '../../../shared/link/requests.ts';
import { FAULTS } from '../../../shared/link/vocabulary.ts';
import type { BoardState, LiveState, LogKind, Problem } from '../../../shared/workbench/contract.ts';
import { describeProblem } from '../../../shared/workbench/problems.ts';
import type { Clock } from '../clock.ts';
import type { LogFacts } from '../log/session-log.ts';
import { readBack } from '../readback.ts';
import type { BoardSession } from '../session.ts';
import { BoardLink, portName } from './board-link.ts';
import type { BoardPlan } from './document.ts';
import { Heart } from './heart.ts';
import { compareImages, siteCount, withDial } from './images.ts';
import { LiveView, type Report } from './live-view.ts';
import type { Opened } from './ports.ts';
import { connectedText, restartedText, siteName } from './sentences.ts';
import { takeSnapshot } from './snapshot.ts';
import type { Tell } from './telling.ts';
import type { VirtualUnit } from './virtual-boards.ts';

export interface UnitHooks {
  readonly clock: Clock;
  readonly tell: Tell;
  readonly log: (kind: LogKind, text: string, facts?: LogFacts) => void;
  readonly open: (port: string) => Promise<Opened>;
  /** The virtual board behind a port; null for a real port. */
  readonly virtual: (port: string | null) => VirtualUnit | null;
  /** A board came or went, so the list of ports is another one. */
  readonly portsMoved: () => void;
}

type Task = NonNullable<BoardState['task']>;

export class BoardUnit {
  plan: BoardPlan;
  readonly link: BoardLink;
  readonly hooks: UnitHooks;
  readonly view = new LiveView();
  /** Undefined while not known, null where there is no table. */
  running: Uint8Array | null | undefined = undefined;
  kept: Uint8Array | null | undefined = undefined;
  task: Task | null = null;
  /** What was refused or went wrong last, while the link is ready. */
  notice: Problem | null = null;
  keeps = 0;
  private readonly heart: Heart;
  private flags: Snapshot['flags'] = new Set();
  private master = 'run';
  private held: boolean[] = [];
  private faults: number[] = [];
  private told: ToldState | null = null;
  private lastTold = '';
  private snapshots: Promise<void> | null = null;
  private snapshotAgain = false;
  /** Dials turned while the running image is being read: what was read may be older. */
  private turnedMeanwhile: { readonly site: number; readonly dial: number; readonly ms: number }[] = [];

  constructor(plan: BoardPlan, hooks: UnitHooks) {
    this.plan = plan;
    this.hooks = hooks;
    this.heart = new Heart(hooks.clock, {
      beat: (ms, pace) => {
        this.view.notice(ms);
        hooks.tell('clock', { board: this.plan.id, ms, pace });
      },
      speed: () => this.virtual?.speed ?? 1,
    });
    this.link = new BoardLink({
      clock: hooks.clock,
      open: hooks.open,
      wanted: () => ({ chip: this.plan.chip, name: this.plan.name }),
      onReady: (session, who, isBack) => this.ready(session, who, isBack),
      onLost: (problem) => this.lost(problem),
      explainLoss: () => this.explainLoss(),
      onGivenUp: (problem) => this.log('problem', `${problem.what}`),
      changed: () => this.tellState(),
    });
  }

  get virtual(): VirtualUnit | null {
    return this.hooks.virtual(this.link.port);
  }

  get session(): BoardSession | null {
    return this.link.state === 'ready' ? this.link.session : null;
  }

  /** Why nothing can be asked of the board; only while there is no session. */
  get absence(): Problem {
    return this.link.problem ?? describeProblem('notConnected', this.link.where);
  }

  get isOpenLayout(): boolean {
    const { match } = compareImages(this.running, this.plan.image?.bytes ?? null);
    return match === 'same' || match === 'times';
  }

  state(): BoardState {
    const { link, virtual } = this;
    const wanted = this.plan.image?.bytes ?? null;
    const running = compareImages(this.running, wanted);
    const kept = compareImages(this.kept, wanted);
    return {
      board: this.plan.id,
      port: link.port,
      virtual: virtual !== null,
      link: link.state,
      problem: link.problem ?? this.notice,
      powered: virtual?.powered ?? null,
      speed: virtual?.speed ?? null,
      who: link.who && {
        firmware: link.who.firmware,
        protocol: link.who.protocol,
        chip: link.who.chip,
        identity: link.who.identity,
        name: link.who.name,
      },
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
      supplyMillivolts: this.told?.millivolts ?? null,
      resetCause: this.told?.cause ?? 'unknown',
      task: this.task,
      quiet: false,
      firmware: { match: 'unknown', shipped: null },
      openingResets: null,
      silicon: null,
      copiedAt: null,
    };
  }

  live(): LiveState {
    return this.view.state(this.plan.id);
  }

  tellState(): void {
    const state = this.state();
    const text = JSON.stringify(state);
    if (text === this.lastTold) return;
    this.lastTold = text;
    this.hooks.tell('board', state);
  }

  log(kind: LogKind, text: string, data?: LogFacts['data']): void {
    const when = this.session ? { boardMs: this.view.ms } : {};
    this.hooks.log(kind, text, { board: this.plan.id, ...when, ...(data ? { data } : {}) });
  }

  /** Another layout has been opened, or this one anew. Nothing is sent. */
  replan(plan: BoardPlan): void {
    this.plan = plan;
    this.tellState();
  }

  /** Reads everything again: what runs, what is kept, how it stands. */
  async readAll(session: BoardSession): Promise<void> {
    const state = await session.request(ask.state());
    if (state.ok) {
      this.told = state.value;
      this.keeps = state.value.keeps;
    }
    await session.request(ask.tell(true));
    await this.readImages(session);
    await this.snapshot();
  }

  async readImages(session: BoardSession): Promise<void> {
    const images: (Uint8Array | null | undefined)[] = [];
    this.turnedMeanwhile = [];
    for (const [index, which] of (['run', 'kept'] as const).entries()) {
      const read = await readBack(session, which, (done, total) => {
        this.setTask({ name: 'readBack', done: index * total + done, total: 2 * total });
      });
      images.push(read.ok ? (read.value?.bytes ?? null) : undefined);
      if (!read.ok && session.ended === null) {
        this.notice = describeProblem('readBackFailed', { ...this.link.where, detail: read.error.kind });
      }
    }
    if (session !== this.link.session) return;
    [this.running, this.kept] = images;
    for (const { site, dial, ms } of this.turnedMeanwhile) {
      if (this.running) this.running = withDial(this.running, site, dial, ms);
    }
    this.setTask(null);
  }

  /** The board has confirmed a dial. */
  dialTurned(site: number, dial: number, ms: number): void {
    if (this.running) this.running = withDial(this.running, site, dial, ms);
    this.turnedMeanwhile.push({ site, dial, ms });
  }

  setTask(task: Task | null): void {
    this.task = task;
    this.tellState();
  }

  /** Asks for everything shown now. Wishes that come meanwhile are served by one more round. */
  snapshot(): Promise<void> {
    this.snapshotAgain = true;
    this.snapshots ??= this.takeSnapshots();
    return this.snapshots;
  }

  private async takeSnapshots(): Promise<void> {
    while (this.snapshotAgain) {
      this.snapshotAgain = false;
      const { session } = this.link;
      if (!session) break;
      const taken = await takeSnapshot(session, siteCount(this.running));
      if (taken.ok && session === this.link.session) this.take(taken.value);
    }
    this.snapshots = null;
  }

  private take(report: Report): void {
    this.view.merge(report);
    this.takeFlags(report.snap);
    this.held = report.sites.map(({ site }) => site.flags.has('held'));
    this.faults = report.sites.map(({ site }) => faultCode(site.fault));
    this.hooks.tell('live', this.live());
    this.tellState();
  }

  takeFlags(snap: Snapshot): void {
    this.flags = snap.flags;
    this.master = snap.master;
  }

  private async ready(session: BoardSession, who: Who, isBack: boolean): Promise<void> {
    this.view.clear();
    this.notice = null;
    this.heart.start(session);
    session.onEvent((event) => {
      if (session === this.link.session) this.heard(session, event);
    });
    session.onLost(() => void this.snapshot());
    await this.readAll(session);
    if (session !== this.link.session) return;
    const { match } = compareImages(this.running, this.plan.image?.bytes ?? null);
    this.log('connection', connectedText(this.plan, portName(this.link.port ?? ''), who, match, isBack), {
      port: this.link.port,
      chip: who.chip,
      firmware: who.firmware,
      identity: who.identity,
      running: match,
    });
    this.sayIfDamaged();
    this.tellState();
    this.hooks.portsMoved();
  }

  private lost(problem: Problem): void {
    this.heart.stop();
    const lasting = this.hostEffects();
    this.forget();
    this.hooks.tell('clock', { board: this.plan.id, ms: this.view.ms, pace: 0 });
    this.log('connection', `${problem.what}${lasting ? ` ${lasting} ended with it.` : ''}`, { problem: problem.code });
    this.hooks.portsMoved();
  }

  /** What is no longer known once nobody answers. */
  private forget(): void {
    this.running = undefined;
    this.kept = undefined;
    this.flags = new Set();
    this.held = [];
    this.faults = [];
    this.master = 'run';
    this.told = null;
    this.task = null;
    this.notice = null;
  }

  /** Null when the board is ready and has been read back. */
  async connect(port: string): Promise<Problem | null> {
    this.heart.stop();
    this.forget();
    return this.link.connect(port);
  }

  async disconnect(): Promise<void> {
    this.heart.stop();
    this.forget();
    await this.link.disconnect();
  }

  private explainLoss(): Problem | null {
    const { virtual } = this;
    return virtual && !virtual.powered ? describeProblem('powerOff', this.link.where) : null;
  }

  private heard(session: BoardSession, event: BoardEvent): void {
    const board = this.plan.id;
    switch (event.word) {
      case 'lamps':
        this.hooks.tell('lamps', { board, ms: event.ms, lit: this.view.lampsChanged(event.ms, event.lit) });
        break;
      case 'row':
        this.view.rowEntered(event.ms, event.site, event.row);
        this.hooks.tell('row', { board, ms: event.ms, site: event.site, row: event.row });
        break;
      case 'demand':
        this.view.notice(event.ms);
        this.hooks.tell('demand', { board, ms: event.ms, input: event.input });
        break;
      case 'fault':
        this.view.notice(event.ms);
        this.faulted(event.site, faultCode(event.fault));
        break;
      case 'gap':
        void this.snapshot();
        break;
      case 'alone':
        void this.alone(session);
        break;
      case 'hello':
        void this.restarted(session, event.cause);
    }
  }

  private faulted(site: number, code: number): void {
    const reason = FAULTS.find((fault) => fault.code === code)?.reason ?? `fault ${code}`;
    this.log('fault', `${siteName(this.plan, site)} went to its fault aspect: ${reason}.`, { site, code });
    void this.snapshot();
  }

  /** The board heard nothing for too long: everything that the host had laid upon it is over, events too. */
  private async alone(session: BoardSession): Promise<void> {
    const lasting = this.hostEffects();
    if (lasting) this.log('control', `${lasting} ended: ${this.plan.name} had heard nothing from here for 5 seconds.`);
    await session.request(ask.tell(true));
    await this.snapshot();
  }

  private async restarted(session: BoardSession, cause: string): Promise<void> {
    const lasting = this.hostEffects();
    this.view.clear();
    this.log('reset', `${restartedText(this.plan, cause)}${lasting ? ` ${lasting} ended with it.` : ''}`, { cause });
    await this.readAll(session);
    this.sayIfDamaged();
  }

  private sayIfDamaged(): void {
    if (!this.flags.has('storeFault')) return;
    this.notice = describeProblem('storeDamaged', this.link.where);
    this.log('problem', this.notice.what);
  }

  /** What the host has laid upon the board and ends with its silence, as the subject of a sentence; null for nothing. */
  private hostEffects(): string | null {
    const held = this.held.flatMap((isHeld, site) => (isHeld ? [siteName(this.plan, site)] : []));
    const parts = [
      ...(held.length > 0 ? [`the hold of ${held.join(', ')}`] : []),
      ...(this.flags.has('paused') ? ['the pause'] : []),
      ...(this.flags.has('override') ? ['overrides'] : []),
    ];
    const text = parts.join(' and ');
    return text === '' ? null : text.charAt(0).toUpperCase() + text.slice(1);
  }
}

function faultCode(key: string): number {
  // A fault of a newer firmware is a fault all the same.
  return FAULTS.find((fault) => fault.key === key)?.code ?? 255;
}
