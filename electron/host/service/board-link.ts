/**
 * The connection of one board of the layout: off, opening, greeting, ready,
 * lost. What is lost is looked for at the same port until it is back or given up.
 */
import type { Who } from '../../../shared/link/requests.ts';
import type { LinkState, Problem } from '../../../shared/workbench/contract.ts';
import { type Circumstances, describeProblem } from '../../../shared/workbench/problems.ts';
import type { Clock } from '../clock.ts';
import { BoardSession } from '../session.ts';
import type { ByteStream } from '../stream.ts';
import { greetingProblem, openingProblem, whoProblem } from './failures.ts';
import type { Opened } from './ports.ts';

/** A lost board is looked for this often, ms. */
const LOOK_AGAIN_MS = 1000;

export interface LinkHooks {
  readonly clock: Clock;
  readonly open: (port: string) => Promise<Opened>;
  /** Chip and name of the board in the layout, as they are now. */
  readonly wanted: () => { readonly chip: string; readonly name: string };
  /** A board was greeted and is the right one; the link is ready when this is done. */
  readonly onReady: (session: BoardSession, who: Who, isBack: boolean) => Promise<void>;
  readonly onLost: (problem: Problem) => void;
  /** A better reason for a loss than that the stream ended or fell silent; null when there is none. */
  readonly explainLoss: () => Problem | null;
  /** Looking for it has ended without it. */
  readonly onGivenUp: (problem: Problem) => void;
  readonly changed: () => void;
}

export class BoardLink {
  state: LinkState = 'off';
  port: string | null = null;
  problem: Problem | null = null;
  who: Who | null = null;
  session: BoardSession | null = null;
  private readonly hooks: LinkHooks;
  /** Counts up with each wish of the person: what was begun for an earlier one no longer counts. */
  private wish = 0;
  private stream: ByteStream | null = null;
  private streamGone = true;
  private stopLooking: () => void = () => {};
  private looking: Promise<void> | null = null;

  constructor(hooks: LinkHooks) {
    this.hooks = hooks;
  }

  /** Null when the board is ready. */
  async connect(port: string): Promise<Problem | null> {
    await this.drop();
    this.who = null;
    this.port = port;
    this.problem = null;
    const problem = await this.attach(this.wish, false);
    return problem === 'superseded' ? this.problem : problem;
  }

  /** Stops looking, too. Nothing that waits is sent. */
  async disconnect(): Promise<void> {
    await this.drop();
    this.port = null;
    this.problem = null;
    this.who = null;
    this.hooks.changed();
  }

  /** Looks for a lost board now instead of at the next second. */
  async lookNow(): Promise<void> {
    await this.looking;
    this.stopLooking();
    await this.look();
  }

  /** Words for texts about this board. */
  get where(): Circumstances {
    return { board: this.hooks.wanted().name, ...(this.port === null ? {} : { port: portName(this.port) }) };
  }

  private async drop(): Promise<void> {
    this.wish += 1;
    this.stopLooking();
    this.state = 'off';
    const { session, stream } = this;
    this.session = null;
    this.stream = null;
    if (session) await session.close();
    if (stream && !this.streamGone) await stream.close();
    this.streamGone = true;
  }

  private async attach(wish: number, isBack: boolean): Promise<Problem | null | 'superseded'> {
    if (this.stream === null || this.streamGone) {
      if (!isBack) this.enter('opening');
      const opened = await this.hooks.open(this.port ?? '');
      if (wish !== this.wish) {
        if (opened.ok) await opened.stream.close();
        return 'superseded';
      }
      if (!opened.ok) return this.fail(openingProblem(opened.error, this.where), isBack);
      this.take(opened.stream);
    }
    return this.greet(this.stream as unknown as ByteStream, wish, isBack);
  }

  private take(stream: ByteStream): void {
    this.stream = stream;
    this.streamGone = false;
    // Before the session listens, so that it is known when the session ends by it.
    stream.onClose(() => {
      if (this.stream === stream) this.streamGone = true;
    });
  }

  private async greet(stream: ByteStream, wish: number, isBack: boolean): Promise<Problem | null | 'superseded'> {
    const session = new BoardSession(stream, { clock: this.hooks.clock });
    this.session = session;
    // A lost board stays lost for the person until it has answered.
    if (!isBack) this.enter('greeting');
    const greeted = await session.greet();
    if (wish !== this.wish) return 'superseded';
    if (!greeted.ok) {
      this.session = null;
      if (isBack && greeted.error.kind === 'silent') return this.fail(describeProblem('silent', this.where), isBack);
      await this.closeStream();
      return this.fail(greetingProblem(greeted.error, this.where), isBack);
    }
    const before = this.who;
    const unfit =
      whoProblem(greeted.value, this.hooks.wanted().chip, this.where) ??
      (isBack && before && before.identity !== greeted.value.identity
        ? describeProblem('otherBoard', this.where)
        : null);
    if (unfit) return this.refuse(unfit, isBack);
    this.who = greeted.value;
    this.problem = null;
    this.enter('ready');
    session.onEnd((cause) => this.lost(session, cause));
    if (session.ended === null) await this.hooks.onReady(session, greeted.value, isBack);
    if (wish !== this.wish) return 'superseded';
    return this.session === session ? null : this.problem;
  }

  /** Something answers, but not what is wanted: looking again would not change that. */
  private async refuse(problem: Problem, isBack: boolean): Promise<Problem> {
    this.session = null;
    await this.closeStream();
    this.problem = problem;
    this.state = 'off';
    if (isBack) this.hooks.onGivenUp(problem);
    this.hooks.changed();
    return problem;
  }

  private fail(problem: Problem, isBack: boolean): Problem {
    if (!isBack) {
      this.problem = problem;
      this.enter('off');
      return problem;
    }
    // That a lost port is not there is no news, and the text for the loss says more.
    const isNews = problem.code !== 'portMissing' && problem.code !== this.problem?.code;
    if (isNews) {
      this.problem = problem;
      this.hooks.changed();
    }
    this.lookLater();
    return problem;
  }

  private lost(session: BoardSession, cause: string): void {
    if (this.session !== session) return;
    this.session = null;
    this.state = 'lost';
    this.problem = this.hooks.explainLoss() ?? this.lossProblem(cause);
    this.hooks.onLost(this.problem);
    this.hooks.changed();
    this.lookLater();
  }

  private lossProblem(cause: string): Problem {
    if (!this.streamGone) return describeProblem('silent', this.where);
    return describeProblem('cableOut', { ...this.where, detail: cause });
  }

  private lookLater(): void {
    this.stopLooking();
    this.stopLooking = this.hooks.clock.setTimer(LOOK_AGAIN_MS, () => void this.look());
  }

  private async look(): Promise<void> {
    if (this.state !== 'lost') return;
    this.looking = this.attach(this.wish, true).then(() => {
      this.looking = null;
    });
    await this.looking;
  }

  private async closeStream(): Promise<void> {
    const { stream } = this;
    this.stream = null;
    this.streamGone = true;
    await stream?.close();
  }

  private enter(state: LinkState): void {
    this.state = state;
    this.hooks.changed();
  }
}

/** Path of a port as it is read inside a sentence. */
export function portName(path: string): string {
  return path.startsWith('virtual:') ? 'the virtual board' : path;
}
