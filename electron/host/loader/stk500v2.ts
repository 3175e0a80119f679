/**
 * STK500 version 2 (AVR068), as far as the loader of an ATmega2560 speaks it.
 * That loader erases by a counter of its own, one page further with every page
 * that is written, from 0 at each reset: pages go in order, and page 0 can be
 * written again only after another reset.
 */
import type { Clock } from '../clock.ts';
import { failed, fine, type Outcome } from '../result.ts';
import { hex, type LoaderClient, QUIET_MS, SIGN_ON_MS, type SignOnOptions, type Trouble } from './client.ts';
import { Inbox } from './inbox.ts';
import type { LoaderLine } from './line.ts';

/** AVR068: framing, statuses, the answer to a frame whose checksum was wrong. */
const START = 0x1b;
const TOKEN = 0x0e;
const STATUS_OK = 0x00;
const CHECKSUM_WRONG = 0xb0;

/** A chip with more flash than this has bit 31 of its addresses set (AVR068, "load address"). */
const LARGE_FLASH = 0x10000;

/**
 * Every message body that is sent (AVR068, chapters "Commands"). Values for an outer programmer (delays, polling,
 * instructions of the chip's serial programming, data sheet 2549, table of serial instructions) are not looked at by
 * boot loaders; those here are usual ones, from memory.
 */
export const V2_BODIES = {
  signOn: () => [0x01],
  enter: () => [0x10, 200, 100, 25, 32, 0, 0x53, 3, 0xac, 0x53, 0x00, 0x00],
  leave: () => [0x11, 1, 1],
  /** One byte of the signature: instruction 30 00 index 00, its fourth byte being the answer. */
  signature: (index: number) => [0x1b, 4, 0x30, 0x00, index, 0x00],
  /** Word address, most significant byte first. */
  loadAddress: (at: number, flashBytes: number) => {
    const large = flashBytes > LARGE_FLASH ? 0x80 : 0;
    return [0x06, large | ((at >> 25) & 0x7f), (at >> 17) & 0xff, (at >> 9) & 0xff, (at >> 1) & 0xff];
  },
  /** Mode C1: page mode, wait for ready, write the page at the end. */
  programPage: (page: Uint8Array) => [
    ...[0x13, page.length >> 8, page.length & 0xff, 0xc1, 10, 0x40, 0x4c, 0x20, 0x00, 0x00],
    ...page,
  ],
  readPage: (length: number) => [0x14, length >> 8, length & 0xff, 0x20],
} as const;

/** A whole message: start, sequence number, size, token, body, XOR of all before. */
export function v2Frame(sequence: number, body: readonly number[]): Uint8Array {
  const bytes = [START, sequence, body.length >> 8, body.length & 0xff, TOKEN, ...body];
  return Uint8Array.of(
    ...bytes,
    bytes.reduce((xor, byte) => xor ^ byte, 0),
  );
}

export interface V2Message {
  readonly sequence: number;
  readonly body: Uint8Array;
}

/** Whole messages among what came; what is not one, by its token, size or checksum, is passed over. */
export function readV2Messages(bytes: readonly number[]): V2Message[] {
  const found: V2Message[] = [];
  for (let at = 0; at + 6 <= bytes.length; at++) {
    if (bytes[at] !== START || bytes[at + 4] !== TOKEN) continue;
    const end = at + 5 + (bytes[at + 2] ?? 0) * 256 + (bytes[at + 3] ?? 0);
    if (end >= bytes.length) continue;
    if (bytes.slice(at, end + 1).reduce((xor, byte) => xor ^ byte, 0) !== 0) continue;
    found.push({ sequence: bytes[at + 1] ?? 0, body: Uint8Array.from(bytes.slice(at + 5, end)) });
    at = end;
  }
  return found;
}

const ANSWER_MS = 500;
const TRIES = 4;

export class Stk500v2 implements LoaderClient {
  private readonly line: LoaderLine;
  private readonly inbox: Inbox;
  private readonly flashBytes: number;
  private sequence = 0;
  /** Where the loader's own counter erases next, as far as we moved it. */
  private nextErase = 0;

  constructor(line: LoaderLine, clock: Clock, flashBytes: number, inbox = new Inbox(line, clock)) {
    this.line = line;
    this.flashBytes = flashBytes;
    this.inbox = inbox;
  }

  async signOn({ tries, stop = () => false }: SignOnOptions): Promise<Outcome<null, Trouble>> {
    this.inbox.clear();
    this.nextErase = 0;
    for (let n = 0; n < tries && !stop(); n++) {
      // Number 1 each time: loaders take it at any moment, others only in their order (from memory).
      this.sequence = 1;
      const body = V2_BODIES.signOn();
      this.line.write(v2Frame(this.sequence, body));
      const answer = await this.inbox.take((bytes) => answerTo(bytes, [1], body[0] ?? 0), SIGN_ON_MS);
      if (this.inbox.ended !== null) break;
      if (answer?.[1] !== STATUS_OK) continue;
      await this.inbox.quiet(QUIET_MS);
      return nothing(await this.exchange(V2_BODIES.enter()));
    }
    return failed(this.silence());
  }

  async signature(): Promise<Outcome<string, Trouble>> {
    const bytes: number[] = [];
    for (const index of [0, 1, 2]) {
      const read = await this.exchange(V2_BODIES.signature(index));
      if (!read.ok) return read;
      bytes.push(read.value[2] ?? 0);
    }
    return fine(hex(bytes));
  }

  canProgram(at: number): boolean {
    return at === this.nextErase;
  }

  /**
   * A repeat whose first was heard erases the page after as well. That does no harm where pages are still to be written
   * in order, but would where they are written already: `once` is for there.
   */
  async programPage(at: number, page: Uint8Array, once = false): Promise<Outcome<null, Trouble>> {
    const loaded = await this.exchange(V2_BODIES.loadAddress(at, this.flashBytes));
    if (!loaded.ok) return loaded;
    this.nextErase = at + page.length;
    return nothing(await this.exchange(V2_BODIES.programPage(page), once ? 1 : TRIES));
  }

  async readPage(at: number, length: number): Promise<Outcome<Uint8Array, Trouble>> {
    const loaded = await this.exchange(V2_BODIES.loadAddress(at, this.flashBytes));
    if (!loaded.ok) return loaded;
    const read = await this.exchange(V2_BODIES.readPage(length));
    if (!read.ok) return read;
    // Command, status, data, status.
    if (read.value.length === length + 3) return fine(read.value.subarray(2, length + 2));
    return failed({ kind: 'garbled', detail: `${read.value.length - 3} bytes read, ${length} asked for` });
  }

  /** Once it has left, it is silent. */
  async forget(): Promise<void> {
    for (let attempt = 0; attempt < TRIES && !(await this.leave()); attempt++);
  }

  async leave(): Promise<boolean> {
    return (await this.exchange(V2_BODIES.leave(), 1)).ok;
  }

  /** The body of an answer with a good status. */
  private async exchange(body: readonly number[], tries = TRIES): Promise<Outcome<Uint8Array, Trouble>> {
    this.inbox.clear();
    const numbers: number[] = [];
    let trouble: Trouble = { kind: 'silent' };
    for (let attempt = 0; attempt < tries; attempt++) {
      // A loader that counts waits for this number if it lost the message, for the next one if we lost its answer.
      if (attempt % 2 === 0) this.sequence = (this.sequence + 1) & 0xff;
      numbers.push(this.sequence);
      this.line.write(v2Frame(this.sequence, body));
      const answer = await this.inbox.take((bytes) => answerTo(bytes, numbers, body[0] ?? 0), ANSWER_MS);
      if (this.inbox.ended !== null) return failed(this.silence());
      if (answer === null) trouble = this.silence();
      else if (answer[1] === STATUS_OK) return fine(answer);
      else {
        const detail = `message ${hex(body.slice(0, 1))} answered ${hex(answer.subarray(0, 2))}`;
        trouble = { kind: answer[0] === CHECKSUM_WRONG ? 'garbled' : 'refused', detail };
        this.inbox.clear();
      }
    }
    return failed(trouble);
  }

  private silence(): Trouble {
    const { ended, waiting } = this.inbox;
    if (ended !== null) return { kind: 'ended', cause: ended };
    return waiting === 0 ? { kind: 'silent' } : { kind: 'garbled', detail: 'what came is no answer' };
  }
}

function answerTo(bytes: readonly number[], numbers: readonly number[], command: number): Uint8Array | null {
  const found = readV2Messages(bytes).find(
    ({ sequence, body }) => numbers.includes(sequence) && (body[0] === command || body[0] === CHECKSUM_WRONG),
  );
  return found?.body ?? null;
}

function nothing(done: Outcome<Uint8Array, Trouble>): Outcome<null, Trouble> {
  return done.ok ? fine(null) : done;
}
