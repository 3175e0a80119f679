/** One board of the layout as the host knows it: its link, what it runs and keeps, what it shows. */

import type { WiringFault } from '../../../shared/electrics/model.ts';
import type { CheckRecord } from '../../../shared/layout/check-record.ts';
import { ask, type Who } from '../../../shared/link/requests.ts';
import { imageCrc } from '../../../shared/table/shape.ts';
import type { BoardState, LayoutGlow, LiveState, LogKind, Problem } from '../../../shared/workbench/contract.ts';
import { describeProblem } from '../../../shared/workbench/problems.ts';
import type { Clock } from '../clock.ts';
import type { LogFacts } from '../log/session-log.ts';
import { readBack } from '../readback.ts';
import type { BoardSession } from '../session.ts';
import { BoardEvents } from './board-events.ts';
import { BoardKnown } from './board-known.ts';
import { BoardLink, portName } from './board-link.ts';
import type { BoardMemory, Remembered } from './board-memory.ts';
import type { BoardPlan } from './document.ts';
import { FrameRecorder } from './frames.ts';
import { Heart } from './heart.ts';
import { needsSending, siteCount } from './images.ts';
import { LiveView, type Report } from './live-view.ts';
import type { Neighbours } from './neighbours.ts';
import type { Opened } from './ports.ts';
import { connectedText, dialName, hex, siteName } from './sentences.ts';
import { firmwareMatch, type ShippedImages } from './shipped.ts';
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
  /** Wall-clock time. */
  readonly now: () => Date;
  readonly neighbours: Neighbours;
  readonly memory: BoardMemory;
  /** Name of the open layout. */
  readonly layoutName: () => string;
  readonly images: ShippedImages;
}

type Task = NonNullable<BoardState['task']>;
/** A task that goes through the link and beyond it; what happens on the way is no task of its own. */
type Job = Task & { readonly name: 'firmware' | 'replace' };

export class BoardUnit {
  plan: BoardPlan;
  readonly link: BoardLink;
  readonly hooks: UnitHooks;
  readonly view = new LiveView();
  /** What was said between host and board, over reconnections too. */
  readonly frames: FrameRecorder;
  readonly known = new BoardKnown();
  task: Task | null = null;
  job: Job | null = null;
  /** What was refused or went wrong last, while the link is ready. */
  notice: Problem | null = null;
  /** A lamp check holds the lamps. */
  checking = false;
  /** What the last one found. */
  checkRecord: CheckRecord | null = null;
  /** Set in the wires of its virtual board. */
  wiringFaults: readonly WiringFault[] = [];
  private glow: LayoutGlow | null = null;
  private readonly heart: Heart;
  private readonly events: BoardEvents;
  /** The port that a job has in hand, while the link has let go of it. */
  private jobPort: string | null = null;
  private freePort: () => void = () => {};
  /** About twice a second while the board answers. */
  onBeat: () => void = () => {};
  /** A site entered a row. */
  onRow: (site: number, row: number) => void = () => {};
  /** Sites that are to be held at one of these rows, when it comes. */
  arms: () => BoardState['arms'] = () => [];
  disarm: () => void = () => {};
  private copiedAt: string | null;
  private copyFailed = false;
  /** Writes into the log that the board was met, with what it ran; null when that is done. */
  private sayMet: (() => void) | null = null;
  private lastTold = '';
  private snapshots: Promise<void> | null = null;
  private snapshotAgain = false;

  constructor(plan: BoardPlan, hooks: UnitHooks) {
    this.plan = plan;
    this.hooks = hooks;
    this.frames = new FrameRecorder(hooks.now);
    this.copiedAt = hooks.memory.copiedAt(plan);
    this.heart = new Heart(hooks.clock, {
      beat: (ms, pace) => {
        this.view.notice(ms);
        hooks.tell('clock', { board: this.plan.id, ms, pace });
        this.onBeat();
      },
      speed: () => this.virtual?.speed ?? 1,
    });
    this.events = new BoardEvents(this);
    this.link = new BoardLink({
      clock: hooks.clock,
      open: (port) => this.open(port),
      neighbours: hooks.neighbours,
      wanted: () => ({ chip: this.plan.chip, name: this.plan.name }),
      onReady: (session, who, isBack) => this.ready(session, who, isBack),
      onLost: (problem) => this.lost(problem),
      explainLoss: () => this.explainLoss(),
      onGivenUp: (problem) => this.trouble(problem),
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
    const { match } = this.known.compare(this.plan).running;
    return match === 'same' || match === 'times';
  }

  state(): BoardState {
    const { link, virtual } = this;
    const { memory, images } = this.hooks;
    const shipped = images(this.plan.chip)?.version ?? null;
    const met = { who: link.who, problem: link.problem?.code ?? null };
    return {
      board: this.plan.id,
      port: this.port,
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
      ...this.known.state(this.plan),
      task: this.job ?? this.task,
      quiet: link.quiet,
      firmware: { match: virtual ? 'same' : firmwareMatch(met, shipped), shipped },
      openingResets: link.openingResets,
      wear: link.who && memory.wear(this.remembered()),
      silicon: memory.silicon(link.who, this.plan),
      copiedAt: this.copiedAt,
      check: this.checkRecord,
      checking: this.checking,
      wiringFaults: virtual ? this.wiringFaults : null,
      arms: this.arms(),
      keptCrc: this.known.kept ? hex(imageCrc(this.known.kept)) : null,
      needsSending: this.isOpenLayout && needsSending(this.known.running, this.plan.image?.bytes ?? null),
    };
  }

  /** Where the board is, whoever of this unit has hold of it. */
  get port(): string | null {
    return this.jobPort ?? this.link.port;
  }

  /** What the book of boards asks for; only of a board that was greeted. */
  remembered(): Remembered {
    const { who } = this.link;
    if (!who) throw new Error('no board was greeted');
    return { who, plan: this.plan, virtual: this.virtual !== null };
  }

  beginJob(name: Job['name'], port: string): void {
    this.jobPort = port;
    this.freePort = this.hooks.neighbours.reserve(port);
    this.job = { name, done: 0, total: 0 };
    this.notice = null;
    this.tellState();
  }

  jobStage(stage: Omit<Job, 'name'>): void {
    if (!this.job) return;
    this.job = { name: this.job.name, ...stage };
    this.tellState();
  }

  endJob(): void {
    this.job = null;
    this.jobPort = null;
    this.freePort();
    this.tellState();
  }

  /** Lets go of the port so that a boot loader can be reached through it. */
  async release(port: string): Promise<void> {
    await this.disconnect();
    this.link.port = port;
  }

  /** Something went wrong that is worth looking into. */
  trouble(found: Problem): void {
    this.log('problem', found.what, { code: found.code });
  }

  /** Writes identity and name to the board. What comes of it is seen in `link.who`. */
  async nameBoard(session: BoardSession, identity: string): Promise<void> {
    const { name } = this.plan;
    const labelled = await session.request(ask.label(identity, name));
    const { who } = this.link;
    if (!labelled.ok || !who || session !== this.session) return;
    const met = await session.request(ask.who());
    if (met.ok) this.link.who = met.value;
    this.remember();
  }

  /** What the board keeps is copied here, so that a new one can take its place. */
  remember(): void {
    if (!this.link.who) return;
    const { memory, layoutName } = this.hooks;
    const { kept, keeps } = this.known;
    memory.met(this.remembered(), { kept, keeps, layout: layoutName() });
    this.copiedAt = memory.copiedAt(this.plan);
    if (memory.failure !== null && !this.copyFailed) {
      this.copyFailed = true;
      this.trouble(describeProblem('copyFailed', { ...this.link.where, detail: memory.failure }));
    }
    this.tellState();
  }

  live(): LiveState {
    return this.view.state(this.plan.id, this.virtual ? this.glow : null);
  }

  /** The lamps of its virtual layout show something else. */
  glowChanged(glow: LayoutGlow | null): void {
    this.glow = glow;
    if (glow && this.virtual) this.hooks.tell('glow', { board: this.plan.id, glow });
  }

  tellState(): void {
    const state = this.state();
    const text = JSON.stringify(state);
    if (text === this.lastTold) return;
    this.lastTold = text;
    this.hooks.tell('board', state);
  }

  /** Trouble takes along what was said before it. */
  log(kind: LogKind, text: string, data?: LogFacts['data'], isTrouble = kind === 'problem' || kind === 'fault'): void {
    const when = this.session ? { boardMs: this.view.ms } : {};
    const frames = isTrouble ? this.frames.news() : [];
    this.hooks.log(kind, text, {
      board: this.plan.id,
      names: this.namesIn(data),
      ...when,
      ...(data ? { data } : {}),
      ...(frames.length > 0 ? { frames } : {}),
    });
  }

  private namesIn(data: LogFacts['data']): NonNullable<LogFacts['names']> {
    const { plan } = this;
    const { site, dial } = data ?? {};
    if (typeof site !== 'number') return { board: plan.name };
    const named = { board: plan.name, site: siteName(plan, site) };
    return typeof dial === 'number' ? { ...named, dial: dialName(plan, site, dial) } : named;
  }

  /** Opens a port so that what is said there is recorded. */
  async open(port: string): Promise<Opened> {
    const opened = await this.hooks.open(port);
    return opened.ok ? { ...opened, stream: this.frames.tap(opened.stream) } : opened;
  }

  /** The board let go of the lamps by itself. */
  checkBroken(): void {
    if (!this.checking) return;
    this.checking = false;
    this.log('check', `The lamp check on ${this.plan.name} broke off; what was answered is kept.`);
    this.tellState();
  }

  /** Another layout has been opened, or this one anew. Nothing is sent. */
  replan(plan: BoardPlan): void {
    this.plan = plan;
    // Rows may have other numbers now.
    this.disarm();
    this.copiedAt = this.hooks.memory.copiedAt(plan);
    this.tellState();
  }

  /** Reads everything again: what runs, what is kept, how it stands. */
  async readAll(session: BoardSession): Promise<void> {
    const state = await session.request(ask.state());
    if (state.ok) this.known.takeTold(state.value);
    await session.request(ask.tell(true));
    await this.readImages(session);
    await this.snapshot();
  }

  async readImages(session: BoardSession): Promise<void> {
    const images: (Uint8Array | null | undefined)[] = [];
    this.known.beginReading();
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
    this.known.takeImages(images[0], images[1]);
    this.remember();
    this.setTask(null);
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
      const taken = await takeSnapshot(session, siteCount(this.known.running));
      if (taken.ok && session === this.link.session) this.take(taken.value);
    }
    this.snapshots = null;
  }

  private take(report: Report): void {
    this.view.merge(report);
    this.known.take(report);
    this.hooks.tell('live', this.live());
    this.tellState();
  }

  private async ready(session: BoardSession, who: Who, isBack: boolean): Promise<void> {
    this.view.clear();
    this.notice = null;
    this.heart.start(session);
    session.onEvent((event) => {
      if (session === this.link.session) this.events.hear(session, event);
    });
    session.onLost(() => void this.snapshot());
    this.sayMet = () => {
      this.sayMet = null;
      const { match } = this.known.compare(this.plan).running;
      this.log('connection', connectedText(this.plan, portName(this.link.port ?? ''), who, match, isBack), {
        port: this.link.port,
        chip: who.chip,
        firmware: who.firmware,
        identity: who.identity,
        running: match,
      });
    };
    await this.readAll(session);
    if (session !== this.link.session) return;
    this.sayMet?.();
    this.sayIfDamaged();
    this.sayIfWorn();
    void this.events.met(session, who);
    this.tellState();
    this.hooks.portsMoved();
  }

  private lost(problem: Problem): void {
    this.heart.stop();
    const lasting = this.known.hostEffects(this.plan);
    this.checkBroken();
    // A board that was lost again before it was read was there all the same.
    this.sayMet?.();
    this.forget();
    this.hooks.tell('clock', { board: this.plan.id, ms: this.view.ms, pace: 0 });
    const text = `${problem.what}${lasting ? ` ${lasting} ended with it.` : ''}`;
    this.log('connection', text, { problem: problem.code }, true);
    this.hooks.portsMoved();
  }

  /** What is no longer known once nobody answers. */
  private forget(): void {
    this.known.forget();
    this.disarm();
    this.task = null;
    this.notice = null;
    this.sayMet = null;
    this.checking = false;
  }

  /** Null when the board is ready and has been read back. */
  async connect(port: string): Promise<Problem | null> {
    this.heart.stop();
    this.forget();
    return this.link.connect(port);
  }

  async disconnect(): Promise<void> {
    this.heart.stop();
    this.sayMet?.();
    this.forget();
    await this.link.disconnect();
  }

  private explainLoss(): Problem | null {
    const { virtual } = this;
    return virtual && !virtual.powered ? describeProblem('powerOff', this.link.where) : null;
  }

  sayIfDamaged(): void {
    if (!this.known.flags.has('storeFault')) return;
    this.notice = describeProblem('storeDamaged', this.link.where);
    this.trouble(this.notice);
  }

  private sayIfWorn(): void {
    const { wear } = this.state();
    if (!wear?.worn || this.virtual || this.notice) return;
    const cause = `It has kept ${wear.keeps} times and was sent a table ${wear.sends} times; it is made for ${wear.madeFor}.`;
    this.notice = describeProblem('memoryWorn', { ...this.link.where, cause });
    this.trouble(this.notice);
  }
}
