/**
 * Looks for one lost board, every second and whenever ports have come, until
 * it is found or the search is stopped: over the line that fell silent, at the
 * old port, at ports that came since, and over lines that other links opened.
 */
import type { Who } from '../../../shared/link/requests.ts';
import type { Problem } from '../../../shared/workbench/contract.ts';
import { type Circumstances, describeProblem } from '../../../shared/workbench/problems.ts';
import { isBlank } from '../book/board-book.ts';
import type { Clock } from '../clock.ts';
import type { HostError } from '../result.ts';
import { greetingProblem, openingProblem, whoProblem } from './failures.ts';
import type { Neighbour, Neighbours, OpenedPort } from './neighbours.ts';
import { OpenLine } from './open-line.ts';
import type { OpenProblem } from './ports.ts';
import { isSameBoard, Suspects } from './suspects.ts';

/** A lost board is looked for this often, ms. */
const LOOK_AGAIN_MS = 1000;
/** Right after plugging in, the system may not have given the device to its group yet: for so long, ms, that is not told. */
const SETTLING_MS = 2000;

export interface SearchHost {
  readonly clock: Clock;
  readonly neighbours: Neighbours | undefined;
  /** The link that searches, as its neighbours know it. */
  readonly self: Neighbour;
  readonly open: (port: string) => Promise<OpenLine | OpenProblem>;
  readonly chip: () => string;
  readonly where: (port: string) => Circumstances;
  /** It is back; the search has ended. */
  readonly found: (line: OpenLine, who: Who) => Promise<void>;
  /** It is back, but cannot be worked with; the search has ended. */
  readonly unfit: (problem: Problem) => void;
  readonly stranger: (problem: Problem) => void;
  /** What the old port came to. */
  readonly news: (problem: Problem) => void;
}

/** What was lost. */
export interface LostBoard {
  readonly who: Who;
  readonly port: string;
  /** When it was heard last, by the host's clock. */
  readonly heardAt: number;
  /** Still open: the board fell silent with its cable in. */
  readonly line: OpenLine | null;
}

export class BoardSearch {
  private readonly host: SearchHost;
  private readonly lost: LostBoard;
  private readonly suspects: Suspects;
  private isOver = false;
  /** An open line to the old port that says nothing. */
  private silent: OpenLine | null;
  private trial: OpenLine | null = null;
  private opening: string | null = null;
  private offers: OpenedPort[] = [];
  private stopTimer: () => void = () => {};
  private looking: Promise<void> | null = null;
  private attempt: Promise<void> = Promise.resolve();
  /** Since when the old port has been denied; null while it is not. */
  private deniedAt: number | null = null;

  constructor(host: SearchHost, lost: LostBoard) {
    this.host = host;
    this.lost = lost;
    this.silent = lost.line;
    this.suspects = new Suspects((after) => host.neighbours?.appeared(after) ?? [], lost.heardAt);
    this.lookLater();
  }

  /** Nothing that waits is sent; what it has opened is closed. */
  async stop(): Promise<void> {
    const { silent, trial, offers } = this;
    this.end();
    for (const line of [silent, trial]) await line?.close();
    for (const { stream } of offers) await stream.close();
  }

  lookSoon(): void {
    if (this.isOver || this.looking) return;
    this.stopTimer();
    this.looking = this.look().finally(() => {
      this.looking = null;
    });
  }

  /** Looks now, after a round that is under way. */
  async lookNow(): Promise<void> {
    await this.looking;
    this.lookSoon();
    await this.looking;
  }

  misses(who: Who): boolean {
    return !this.isOver && !isBlank(who.identity) && who.identity === this.lost.who.identity;
  }

  adopt(opened: OpenedPort): boolean {
    if (this.isOver) return false;
    this.offers.push(opened);
    this.lookSoon();
    return true;
  }

  holds(port: string): boolean {
    const lines = [this.silent, this.trial].some((line) => line?.port === port && !line.gone);
    return lines || this.opening === port || this.offers.some((offer) => offer.port === port);
  }

  portGone(port: string): void {
    for (const line of [this.silent, this.trial]) if (line?.port === port) line.lose();
  }

  async leave(port: string): Promise<void> {
    if (this.opening !== port && this.trial?.port !== port) return;
    this.suspects.leaveAlone(port, this.host.clock.now());
    if (this.trial?.port === port) await this.trial.close();
    await this.attempt;
  }

  private end(): void {
    this.isOver = true;
    this.stopTimer();
    this.silent = null;
    this.trial = null;
    this.offers = [];
  }

  private lookLater(): void {
    this.stopTimer = this.host.clock.setTimer(LOOK_AGAIN_MS, () => this.lookSoon());
  }

  /** Tries everything once. */
  private async look(): Promise<void> {
    const tried = new Set<string>();
    for (;;) {
      const offer = this.offers.shift();
      const port = offer?.port ?? this.untried(tried);
      if (port === null) break;
      tried.add(port);
      this.attempt = offer ? this.greet(new OpenLine(offer, this.host.clock)) : this.tryPort(port);
      await this.attempt;
      if (this.isOver) return;
    }
    this.lookLater();
  }

  private untried(tried: ReadonlySet<string>): string | null {
    const { neighbours, self } = this.host;
    const ports = this.suspects.list(this.lost.port).filter((port) => !tried.has(port));
    return ports.find((port) => !neighbours?.isHeld(port, self)) ?? null;
  }

  private async tryPort(port: string): Promise<void> {
    const { silent } = this;
    // Opening the port anew would only reset the board.
    if (silent && !silent.gone && silent.port === port) return this.greet(silent);
    this.opening = port;
    const opened = await this.host.open(port);
    this.opening = null;
    if (!(opened instanceof OpenLine)) {
      if (this.isOver) return;
      if (port === this.lost.port) this.tellFailure(openingProblem(opened, this.host.where(port)));
      else this.suspects.failed(port, 'opening', this.host.clock.now());
    } else if (this.isOver || this.suspects.isLeftAlone(port)) await opened.close();
    else await this.greet(opened);
  }

  private async greet(line: OpenLine): Promise<void> {
    this.trial = line;
    const greeted = await line.greet();
    if (this.isOver) return;
    this.trial = null;
    if (!greeted.ok) return this.unanswered(line, greeted.error);
    const who = greeted.value;
    const where = this.host.where(line.port);
    const isOwn = line.port === this.lost.port;
    if (!isSameBoard(this.lost.who, who, isOwn)) return this.stranger(line, who, where);
    const unfit = whoProblem(who, this.host.chip(), where);
    const others = [this.silent, ...this.offers.map(({ stream }) => stream)].filter((other) => other !== line);
    this.end();
    for (const other of others) void other?.close();
    if (!unfit) return this.host.found(line, who);
    // Looking again would not change that.
    await line.close();
    this.host.unfit(unfit);
  }

  private async unanswered(line: OpenLine, error: HostError): Promise<void> {
    const isOwn = line.port === this.lost.port;
    if (isOwn) this.silent = error.kind === 'silent' ? line : null;
    if (error.kind === 'ended') return line.close();
    if (isOwn && error.kind === 'silent')
      return this.tellFailure(describeProblem('silent', this.host.where(line.port)));
    if (isOwn) this.tellFailure(greetingProblem(error, this.host.where(line.port)));
    this.suspects.failed(line.port, 'greeting', this.host.clock.now());
    await line.close();
  }

  /** Another link's board goes there; any other is left alone, and the search goes on. */
  private async stranger(line: OpenLine, who: Who, where: Circumstances): Promise<void> {
    if (this.silent === line) this.silent = null;
    if (this.host.neighbours?.handOver(who, line.giveAway(), this.host.self)) return;
    this.suspects.leaveAlone(line.port, this.host.clock.now());
    this.host.stranger(describeProblem('otherBoard', where));
    await line.close();
  }

  private tellFailure(problem: Problem): void {
    const now = this.host.clock.now();
    this.deniedAt = problem.code === 'portDenied' ? (this.deniedAt ?? now) : null;
    if (this.deniedAt !== null && now - this.deniedAt < SETTLING_MS) return;
    // That a lost port is not there is no news, and the text for the loss says more.
    if (problem.code !== 'portMissing') this.host.news(problem);
  }
}
