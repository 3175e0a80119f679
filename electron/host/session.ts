/**
 * A conversation with one board over one stream: greeting, requests with
 * resends, events, heartbeat. It ends once, by the stream, by silence or by
 * `close`; after that nothing is written and everything that waits is told.
 */
import { type BoardEvent, lostBetween, parseEvent } from '../../shared/link/events.ts';
import { type AnswerLine, type EventLine, encodeRequest, type Line } from '../../shared/link/line.ts';
import { LineReader } from '../../shared/link/reader.ts';
import { ask, type Request, readAnswer, type Who } from '../../shared/link/requests.ts';
import { CODES } from '../../shared/link/vocabulary.ts';
import type { Clock } from './clock.ts';
import { Heartbeat } from './heartbeat.ts';
import { Lane, type Patience } from './lane.ts';
import { BUSY_WAIT_MS, GREETING, patienceFor } from './patience.ts';
import { failed, type HostError, type Outcome } from './result.ts';
import type { ByteStream } from './stream.ts';

const BUSY = CODES.find((code) => code.key === 'busy')?.code;

export interface SessionOptions {
  readonly clock: Clock;
  /** A heartbeat is sent this often, ms, from the greeting on; a board counts a host as gone after 5,000. */
  readonly beatMs?: number;
  /** Silence of so many ms is told by `onQuiet`; without it nobody watches for that. */
  readonly quietMs?: number;
  /** Unanswered heartbeats in a row after which the board is given up. Default: 2. */
  readonly misses?: number;
}

export class BoardSession {
  private readonly stream: ByteStream;
  private readonly beatMs: number;
  private readonly heartbeat: Heartbeat;
  private readonly reader = new LineReader();
  private readonly quick: Lane;
  private readonly slow: Lane;
  private readonly eventListeners: ((event: BoardEvent) => void)[] = [];
  private readonly lostListeners: (() => void)[] = [];
  private readonly endListeners: ((cause: string) => void)[] = [];
  private readonly beatListeners: ((boardMs: number, at: number) => void)[] = [];
  private readonly quietListeners: (() => void)[] = [];
  private lastSequence: number;
  private lastEvent: number | null = null;
  private cause: string | null = null;
  private hasRestarted = false;
  private begun: () => void = () => {};
  private readonly clock: Clock;
  private heardBytes = 0;
  private heardLines = 0;

  constructor(stream: ByteStream, options: SessionOptions) {
    this.stream = stream;
    this.clock = options.clock;
    this.beatMs = options.beatMs ?? 2000;
    // Not always from 0: a board that was not reset still remembers the last session's lines.
    this.lastSequence = Math.floor(options.clock.now()) & 0xff;
    const host = {
      clock: options.clock,
      nextSequence: () => this.nextSequence(),
      write: (bytes: Uint8Array) => stream.write(bytes),
    };
    this.quick = new Lane(host);
    this.slow = new Lane(host);
    this.heartbeat = new Heartbeat(
      {
        clock: options.clock,
        ask: () => this.request(ask.beat()),
        beat: (boardMs, at) => {
          for (const listener of this.beatListeners) listener(boardMs, at);
        },
        quietChanged: () => {
          for (const listener of this.quietListeners) listener();
        },
        silent: () => this.end('The board no longer answers.'),
      },
      options.quietMs ?? null,
      options.misses,
    );
    stream.onData((bytes) => this.receive(bytes));
    stream.onClose((cause) => this.end(cause));
  }

  /** Why it ended; null while it goes on. */
  get ended(): string | null {
    return this.cause;
  }

  /** Nothing has been heard for `quietMs`; the next byte ends it. */
  get quiet(): boolean {
    return this.cause === null && this.heartbeat.quiet;
  }

  /** When the last byte came, by the host's clock. */
  get heardAt(): number {
    return this.heartbeat.heardAt;
  }

  /** The board has said that it started anew while this session listened. */
  get restarted(): boolean {
    return this.hasRestarted;
  }

  /**
   * Asks who is there until answered: a board that was reset by the opening needs about 1.5 s. Starts the heartbeat.
   * `listenMs`: before that it keeps still for so long, or until the board says that it has started. The usual boot loader
   * of ATmega2560 boards takes every byte for a reason to stay.
   */
  async greet(listenMs = 0): Promise<Outcome<Who, HostError>> {
    if (listenMs > 0) await this.listen(listenMs);
    const answer = await this.send(ask.who(), GREETING);
    if (answer.ok) this.heartbeat.start(() => this.beatMs, this.beatMs);
    else if (answer.error.kind === 'silent' && this.heardBytes > 0 && this.heardLines === 0) {
      return failed({ kind: 'foreign' });
    }
    return answer;
  }

  /** Done when the board has said something, when the session has ended, or after so long. */
  private listen(ms: number): Promise<void> {
    if (this.hasRestarted || this.cause !== null) return Promise.resolve();
    return new Promise((resolve) => {
      const cancel = this.clock.setTimer(ms, () => this.begun());
      this.begun = () => {
        cancel();
        this.begun = () => {};
        resolve();
      };
    });
  }

  /** Sends a request in its turn and waits for its answer. */
  request<T>(request: Request<T>): Promise<Outcome<T, HostError>> {
    return this.send(request, patienceFor(request.word));
  }

  onEvent(listener: (event: BoardEvent) => void): void {
    this.eventListeners.push(listener);
  }

  /** An event number is missing: a snapshot tells what was missed. */
  onLost(listener: () => void): void {
    this.lostListeners.push(listener);
  }

  onEnd(listener: (cause: string) => void): void {
    if (this.cause !== null) listener(this.cause);
    else this.endListeners.push(listener);
  }

  /** Board time of each heartbeat, ms, and when its answer came by the host's clock. */
  onBeat(listener: (boardMs: number, at: number) => void): void {
    this.beatListeners.push(listener);
  }

  onQuiet(listener: () => void): void {
    this.quietListeners.push(listener);
  }

  /** Beats at once and then with `interval()` ms after each answer; null stops it. */
  beatEvery(interval: (() => number) | null): void {
    if (this.cause !== null) return;
    if (interval) this.heartbeat.start(interval, 0);
    else this.heartbeat.stop();
  }

  /** Ends it without touching the stream, which is gone or belongs to somebody else now. */
  abandon(cause: string): void {
    this.end(cause);
  }

  async close(): Promise<void> {
    this.end('The connection was closed.');
    await this.stream.close();
  }

  private send<T>(request: Request<T>, patience: Patience): Promise<Outcome<T, HostError>> {
    if (this.cause !== null) return Promise.resolve(failed({ kind: 'ended', cause: this.cause }));
    return new Promise((resolve) => {
      (request.slow ? this.slow : this.quick).add({
        patience,
        line: (sequence) => ascii(encodeRequest(sequence, request.word, request.args)),
        done: (outcome) => resolve(outcome.ok ? readAnswer(request, outcome.value) : outcome),
      });
    });
  }

  private receive(bytes: Uint8Array): void {
    if (this.cause !== null) return;
    this.heardBytes += bytes.length;
    this.heartbeat.heard();
    for (const line of this.reader.push(bytes)) this.heard(line);
  }

  private heard(line: Line): void {
    if (line.kind === 'answer') this.answered(line);
    else if (line.kind === 'event') this.told(line);
    else return;
    this.heardLines += 1;
  }

  private answered(line: AnswerLine): void {
    const isBusy = !line.outcome.ok && line.outcome.code === BUSY;
    for (const lane of [this.quick, this.slow]) {
      if (!isBusy || !lane.postpone(line.sequence, BUSY_WAIT_MS)) lane.answer(line);
    }
  }

  private told(line: EventLine): void {
    const event = parseEvent(line);
    const isHello = event.ok && event.value.word === 'hello';
    const lost = isHello || this.lastEvent === null ? 0 : lostBetween(this.lastEvent, line.number);
    this.lastEvent = line.number;
    if (lost > 0) for (const listener of this.lostListeners) listener();
    if (isHello) {
      this.hasRestarted = true;
      // The board has started anew and knows nothing of what it was asked before.
      this.quick.again();
      this.slow.again();
    }
    this.begun();
    if (event.ok) for (const listener of this.eventListeners) listener(event.value);
  }

  private nextSequence(): number {
    do this.lastSequence = (this.lastSequence + 1) & 0xff;
    while (this.lastSequence === this.quick.sequence || this.lastSequence === this.slow.sequence);
    return this.lastSequence;
  }

  private end(cause: string): void {
    if (this.cause !== null) return;
    this.cause = cause;
    this.begun();
    this.heartbeat.stop();
    this.reader.reset();
    for (const lane of [this.quick, this.slow]) lane.end({ kind: 'ended', cause });
    for (const listener of this.endListeners) listener(cause);
  }
}

function ascii(text: string): Uint8Array {
  return Uint8Array.from(text, (char) => char.charCodeAt(0));
}
