/**
 * STK500 version 1 (AVR061), as far as boot loaders speak it. Frames have no
 * checksum, so the one who writes has to read back; a frame that lost its place
 * is mended by synchronising anew, and then by a reset.
 */
import type { Clock } from '../clock.ts';
import { failed, fine, type Outcome } from '../result.ts';
import { hex, type LoaderClient, QUIET_MS, SIGN_ON_MS, type SignOnOptions, type Trouble } from './client.ts';
import { Inbox } from './inbox.ts';
import type { LoaderLine } from './line.ts';

/** AVR061: command codes, end of a command, answers. */
const END = 0x20;
const IN_SYNC = 0x14;
const OK = 0x10;
const FLASH = 0x46;

/** Every request that is sent. Frames: AVR061, chapters "Commands"; word addresses, low byte first. */
export const V1_FRAMES = {
  sync: () => Uint8Array.of(0x30, END),
  enter: () => Uint8Array.of(0x50, END),
  leave: () => Uint8Array.of(0x51, END),
  signature: () => Uint8Array.of(0x75, END),
  loadAddress: (at: number) => Uint8Array.of(0x55, (at >> 1) & 0xff, (at >> 9) & 0xff, END),
  programPage: (page: Uint8Array) => Uint8Array.of(0x64, page.length >> 8, page.length & 0xff, FLASH, ...page, END),
  readPage: (length: number) => Uint8Array.of(0x74, length >> 8, length & 0xff, FLASH, END),
} as const;

/** An answer with so many bytes between its two ends; null while it is not whole. */
export function readV1Answer(bytes: readonly number[], length: number): Outcome<Uint8Array, Trouble> | null {
  if (bytes.length === 0) return null;
  if (bytes[0] !== IN_SYNC) return failed({ kind: 'garbled', detail: `answered ${hex(bytes.slice(0, 8))}` });
  if (bytes.length < length + 2) return null;
  const end = bytes[length + 1];
  if (end === OK) return fine(Uint8Array.from(bytes.slice(1, length + 1)));
  // Without data this is the loader's word; with data it may as well be a lost or doubled byte.
  return failed(
    length === 0
      ? { kind: 'refused', detail: `answered ${hex(bytes.slice(0, 2))}` }
      : { kind: 'garbled', detail: `the answer ends with ${hex([end ?? 0])}` },
  );
}

const ANSWER_MS = 500;
/** Writing a page takes the chip 9 ms, and 128 bytes at 57,600 baud 23 ms. */
const TRIES = 4;
const SYNC_TRIES = 4;

export class Stk500v1 implements LoaderClient {
  private readonly line: LoaderLine;
  private readonly inbox: Inbox;

  constructor(line: LoaderLine, clock: Clock, inbox = new Inbox(line, clock)) {
    this.line = line;
    this.inbox = inbox;
  }

  async signOn(options: SignOnOptions): Promise<Outcome<null, Trouble>> {
    const synced = await this.sync(options);
    // A formality for boot loaders, but AVR061 wants it before any programming.
    return synced.ok ? nothing(await this.persist(() => this.exchange(V1_FRAMES.enter(), 0))) : synced;
  }

  async signature(): Promise<Outcome<string, Trouble>> {
    const read = await this.persist(() => this.exchange(V1_FRAMES.signature(), 3));
    return read.ok ? fine(hex(read.value)) : read;
  }

  canProgram(): boolean {
    return true;
  }

  /** Written anew as a whole after any trouble: the address may have been lost with it. */
  async programPage(at: number, page: Uint8Array, once = false): Promise<Outcome<null, Trouble>> {
    const write = () => this.addressed(at, V1_FRAMES.programPage(page), 0);
    return nothing(await (once ? write() : this.persist(write)));
  }

  readPage(at: number, length: number): Promise<Outcome<Uint8Array, Trouble>> {
    return this.persist(() => this.addressed(at, V1_FRAMES.readPage(length), length));
  }

  async forget(): Promise<void> {
    // It erases by address: nothing in it counts.
  }

  async leave(): Promise<boolean> {
    return (await this.exchange(V1_FRAMES.leave(), 0)).ok;
  }

  private async sync({ tries, stop = () => false }: SignOnOptions): Promise<Outcome<null, Trouble>> {
    this.inbox.clear();
    for (let n = 0; n < tries && !stop(); n++) {
      this.line.write(V1_FRAMES.sync());
      // A program that ran until now may have left bytes before the answer.
      const found = await this.inbox.take(endsInSync, SIGN_ON_MS);
      if (this.inbox.ended !== null) break;
      if (!found) continue;
      // The answers to the syncs before may still be on their way.
      await this.inbox.quiet(QUIET_MS);
      return fine(null);
    }
    return failed(this.silence());
  }

  private async addressed(at: number, frame: Uint8Array, length: number): Promise<Outcome<Uint8Array, Trouble>> {
    const loaded = await this.exchange(V1_FRAMES.loadAddress(at), 0);
    return loaded.ok ? this.exchange(frame, length) : loaded;
  }

  private async exchange(frame: Uint8Array, length: number): Promise<Outcome<Uint8Array, Trouble>> {
    this.inbox.clear();
    this.line.write(frame);
    const answer = await this.inbox.take((bytes) => readV1Answer(bytes, length), ANSWER_MS);
    if (answer && this.inbox.waiting > length + 2) return failed({ kind: 'garbled', detail: 'bytes after the answer' });
    return answer ?? failed(this.silence());
  }

  /** Does it again after synchronising, so that the loader waits for a command and not for the rest of one. */
  private async persist<T>(once: () => Promise<Outcome<T, Trouble>>): Promise<Outcome<T, Trouble>> {
    for (let attempt = 1; ; attempt++) {
      const done = await once();
      if (done.ok || done.error.kind === 'ended' || attempt === TRIES) return done;
      const synced = await this.sync({ tries: SYNC_TRIES });
      if (!synced.ok) return synced;
    }
  }

  private silence(): Trouble {
    const { ended, waiting } = this.inbox;
    if (ended !== null) return { kind: 'ended', cause: ended };
    return waiting === 0 ? { kind: 'silent' } : { kind: 'garbled', detail: 'the answer broke off' };
  }
}

function endsInSync(bytes: readonly number[]): true | null {
  return bytes.some((byte, at) => byte === IN_SYNC && bytes[at + 1] === OK) || null;
}

function nothing(done: Outcome<Uint8Array, Trouble>): Outcome<null, Trouble> {
  return done.ok ? fine(null) : done;
}
