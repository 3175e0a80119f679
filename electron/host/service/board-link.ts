/**
 * The connection of one board of the layout: off, opening, greeting, ready,
 * lost. What is lost is looked for until it is back or given up.
 */
import type { Who } from '../../../shared/link/requests.ts';
import type { LinkState, Problem } from '../../../shared/workbench/contract.ts';
import { type Circumstances, describeProblem } from '../../../shared/workbench/problems.ts';
import type { Clock } from '../clock.ts';
import { LISTEN_FIRST_MS } from '../patience.ts';
import type { BoardSession } from '../session.ts';
import { BoardSearch } from './board-search.ts';
import { greetingProblem, openingProblem, whoProblem } from './failures.ts';
import type { Neighbour, Neighbours, OpenedPort } from './neighbours.ts';
import { isVirtual, OpenLine } from './open-line.ts';
import type { Opened, OpenProblem } from './ports.ts';

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
  /** Something else was found than was looked for. Unless it is another board, looking has ended. */
  readonly onGivenUp: (problem: Problem) => void;
  readonly changed: () => void;
  /** The other links. Alone, a lost board is looked for at its old port only. */
  readonly neighbours?: Neighbours;
}

export class BoardLink implements Neighbour {
  state: LinkState = 'off';
  port: string | null = null;
  problem: Problem | null = null;
  who: Who | null = null;
  /** Whether the last opening of the port started the board anew; null while not known. */
  openingResets: boolean | null = null;
  private readonly hooks: LinkHooks;
  /** Counts up with each wish of the person: what was begun for an earlier one no longer counts. */
  private wish = 0;
  private line: OpenLine | null = null;
  private search: BoardSearch | null = null;

  constructor(hooks: LinkHooks) {
    this.hooks = hooks;
  }

  /** The conversation with a board that is ready. */
  get session(): BoardSession | null {
    return this.state === 'ready' ? (this.line?.session ?? null) : null;
  }

  /** Nothing has been heard for about a second; cleared by the next byte. */
  get quiet(): boolean {
    return this.session?.quiet ?? false;
  }

  /** Words for texts about this board. */
  get where(): Circumstances {
    return this.whereAt(this.port);
  }

  /** Null when the board is ready. */
  async connect(port: string): Promise<Problem | null> {
    const wish = await this.drop();
    if (wish !== this.wish) return this.superseded();
    this.forget(port);
    this.hooks.neighbours?.join(this);
    this.enter('opening');
    await this.hooks.neighbours?.clear(port, this);
    const opened = await this.open(port);
    if (wish !== this.wish) {
      if (opened instanceof OpenLine) await opened.close();
      return this.superseded();
    }
    return opened instanceof OpenLine ? this.greet(opened, wish) : this.refuse(openingProblem(opened, this.where));
  }

  /** Stops looking, too. Nothing that waits is sent. */
  async disconnect(): Promise<void> {
    const wish = await this.drop();
    if (wish !== this.wish) return;
    this.forget(null);
    this.hooks.neighbours?.part(this);
    this.hooks.changed();
  }

  /** Looks for a lost board now instead of at the next second. */
  async lookNow(): Promise<void> {
    await this.search?.lookNow();
  }

  holds(port: string): boolean {
    const isBusy = this.state !== 'off' && this.state !== 'lost' && this.port === port;
    return isBusy || (this.search?.holds(port) ?? false);
  }

  misses(who: Who): boolean {
    return this.search?.misses(who) ?? false;
  }

  adopt(opened: OpenedPort): boolean {
    return this.search?.adopt(opened) ?? false;
  }

  portGone(port: string): void {
    if (this.line?.port === port) this.line.lose();
    this.search?.portGone(port);
  }

  lookSoon(): void {
    this.search?.lookSoon();
  }

  async leave(port: string): Promise<void> {
    await this.search?.leave(port);
  }

  /** Ends whatever is under way; the result is the number of the new wish. */
  private async drop(): Promise<number> {
    this.wish += 1;
    const { wish, line, search } = this;
    this.state = 'off';
    this.line = null;
    this.search = null;
    await search?.stop();
    await line?.close();
    return wish;
  }

  private forget(port: string | null): void {
    this.port = port;
    this.problem = null;
    this.who = null;
    this.openingResets = null;
  }

  private async open(port: string): Promise<OpenLine | OpenProblem> {
    const { clock, open } = this.hooks;
    // Before it opens, as the edge that resets the board comes with it.
    const openedAt = clock.now();
    const opened = await open(port);
    const listenMs = this.hooks.wanted().chip === 'atmega2560' && !isVirtual(port) ? LISTEN_FIRST_MS : 0;
    return opened.ok ? new OpenLine({ port, stream: opened.stream, openedAt }, clock, listenMs) : opened.error;
  }

  private async greet(line: OpenLine, wish: number): Promise<Problem | null> {
    this.line = line;
    this.enter('greeting');
    const greeted = await line.greet();
    if (wish !== this.wish) return this.superseded();
    const problem = greeted.ok
      ? whoProblem(greeted.value, this.hooks.wanted().chip, this.where)
      : greetingProblem(greeted.error, this.where);
    if (greeted.ok && !problem) return this.accept(line, greeted.value, false);
    this.line = null;
    await line.close();
    if (wish !== this.wish || !problem) return this.superseded();
    return this.refuse(problem);
  }

  private async accept(line: OpenLine, who: Who, isBack: boolean): Promise<Problem | null> {
    const { wish } = this;
    const { session } = line;
    if (!session) return this.superseded();
    this.search = null;
    this.line = line;
    this.forget(line.port);
    this.who = who;
    this.enter('ready');
    session.onEnd((cause) => this.lost(line, session, cause));
    session.onQuiet(() => {
      if (this.session === session) this.hooks.changed();
    });
    if (!isVirtual(line.port)) this.judge(line);
    if (session.ended === null) await this.hooks.onReady(session, who, isBack);
    if (wish !== this.wish) return this.superseded();
    return this.session === session ? null : this.problem;
  }

  private judge(line: OpenLine): void {
    line.judge(() => {
      if (this.line !== line || this.openingResets === line.resets) return;
      this.openingResets = line.resets;
      this.hooks.changed();
    });
  }

  private lost(line: OpenLine, session: BoardSession, cause: string): void {
    if (this.session !== session || !this.who) return;
    this.state = 'lost';
    this.line = null;
    this.problem = this.hooks.explainLoss() ?? this.lossProblem(line, cause);
    this.search = this.seek(line, this.who, session.heardAt);
    this.hooks.onLost(this.problem);
    this.hooks.changed();
  }

  private lossProblem(line: OpenLine, cause: string): Problem {
    if (!line.gone) return describeProblem('silent', this.where);
    return describeProblem('cableOut', { ...this.where, detail: cause });
  }

  private seek(line: OpenLine, who: Who, heardAt: number): BoardSearch {
    const { clock, neighbours, wanted } = this.hooks;
    const host = {
      clock,
      neighbours,
      self: this,
      open: (port: string) => this.open(port),
      chip: () => wanted().chip,
      where: (port: string) => this.whereAt(port),
      found: async (back: OpenLine, found: Who) => {
        await this.accept(back, found, true);
      },
      unfit: (problem: Problem) => {
        this.search = null;
        this.hooks.onGivenUp(this.refuse(problem));
      },
      stranger: (problem: Problem) => {
        this.problem = problem;
        this.hooks.onGivenUp(problem);
        this.hooks.changed();
      },
      news: (problem: Problem) => this.news(problem),
    };
    return new BoardSearch(host, { who, port: line.port, heardAt, line: line.gone ? null : line });
  }

  /** A lost board stays lost for the person until it has answered. */
  private news(problem: Problem): void {
    if (problem.code === this.problem?.code) return;
    this.problem = problem;
    this.hooks.changed();
  }

  private refuse(problem: Problem): Problem {
    this.problem = problem;
    this.enter('off');
    return problem;
  }

  private superseded(): Problem {
    return this.problem ?? describeProblem('notConnected', this.where);
  }

  private whereAt(port: string | null): Circumstances {
    return { board: this.hooks.wanted().name, ...(port === null ? {} : { port: portName(port) }) };
  }

  private enter(state: LinkState): void {
    this.state = state;
    this.hooks.changed();
  }
}

/** Path of a port as it is read inside a sentence. */
export function portName(path: string): string {
  return isVirtual(path) ? 'the virtual board' : path;
}
