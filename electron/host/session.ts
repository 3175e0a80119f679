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
import { Lane, type Patience } from './lane.ts';
import { BUSY_WAIT_MS, GREETING, patienceFor } from './patience.ts';
import { failed, type HostError, type Outcome } from './result.ts';
import type { ByteStream } from './stream.ts';

const BUSY = CODES.find((code) => code.key === 'busy')?.code;

export interface SessionOptions {
  readonly clock: Clock;
  /** A heartbeat is sent this often, ms; a board counts a host as gone after 5,000. */
  readonly beatMs?: number;
}

export class BoardSession {
  private readonly stream: ByteStream;
  private readonly clock: Clock;
  private readonly beatMs: number;
  private readonly reader = new LineReader();
  private readonly quick: Lane;
  private readonly slow: Lane;
  private readonly eventListeners: ((event: BoardEvent) => void)[] = [];
  private readonly lostListeners: (() => void)[] = [];
  private readonly endListeners: ((cause: string) => void)[] = [];
  private readonly beatListeners: ((boardMs: number, at: number) => void)[] = [];
  private lastSequence: number;
  private lastEvent: number | null = null;
  private cause: string | null = null;
  private stopBeat: (() => void) | null = null;
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
    stream.onData((bytes) => this.receive(bytes));
    stream.onClose((cause) => this.end(cause));
  }

  /** Why it ended; null while it goes on. */
  get ended(): string | null {
    return this.cause;
  }

  /** Asks who is there until answered: a board that was reset by the opening needs about 1.5 s. Starts the heartbeat. */
  async greet(): Promise<Outcome<Who, HostError>> {
    const answer = await this.send(ask.who(), GREETING);
    if (answer.ok) this.beatLater();
    else if (answer.error.kind === 'silent' && this.heardBytes > 0 && this.heardLines === 0) {
      return failed({ kind: 'foreign' });
    }
    return answer;
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
    const hasRestarted = event.ok && event.value.word === 'hello';
    const lost = hasRestarted || this.lastEvent === null ? 0 : lostBetween(this.lastEvent, line.number);
    this.lastEvent = line.number;
    if (lost > 0) for (const listener of this.lostListeners) listener();
    if (hasRestarted) {
      // The board has started anew and knows nothing of what it was asked before.
      this.quick.again();
      this.slow.again();
    }
    if (event.ok) for (const listener of this.eventListeners) listener(event.value);
  }

  private beatLater(): void {
    this.stopBeat = this.clock.setTimer(this.beatMs, async () => {
      const answer = await this.request(ask.beat());
      if (this.cause !== null) return;
      if (answer.ok) for (const listener of this.beatListeners) listener(answer.value, this.clock.now());
      else if (answer.error.kind === 'silent') return this.end('The board no longer answers.');
      this.beatLater();
    });
  }

  private nextSequence(): number {
    do this.lastSequence = (this.lastSequence + 1) & 0xff;
    while (this.lastSequence === this.quick.sequence || this.lastSequence === this.slow.sequence);
    return this.lastSequence;
  }

  private end(cause: string): void {
    if (this.cause !== null) return;
    this.cause = cause;
    this.stopBeat?.();
    this.reader.reset();
    for (const lane of [this.quick, this.slow]) lane.end({ kind: 'ended', cause });
    for (const listener of this.endListeners) listener(cause);
  }
}

function ascii(text: string): Uint8Array {
  return Uint8Array.from(text, (char) => char.charCodeAt(0));
}
