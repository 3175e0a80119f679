/**
 * Boards with a boot loader, just good enough to see what a client does: answers
 * at once, keeps what it is sent, and does to single messages what a test says.
 */
import type { LoaderLine, OpenedLoader } from '../../electron/host/loader/line.ts';
import { StreamEnds } from '../../electron/host/stream.ts';
import type { FakeClock } from '../host/fake-clock.ts';

/** What becomes of one message: taken as it is, lost on the way, done without its answer heard, or another answer. */
export type Fate = 'fine' | 'lost' | 'unheard' | 'unplug' | Uint8Array;

export interface FakeOptions {
  readonly protocol: 1 | 2;
  readonly baud: number;
  readonly signature: readonly number[];
  readonly flashBytes: number;
  /** False: the port has no reset line. `swallowed`: a capacitor keeps the pulse from the chip. */
  readonly hasReset?: boolean | 'swallowed';
  /** False: the board starts in its program and only `pressReset` brings the loader up. */
  readonly opensInLoader?: boolean;
}

export class FakeLoader {
  readonly flash: Uint8Array;
  /** Whole messages as heard, hexadecimal; frames without their data. */
  readonly heard: string[] = [];
  /** Decides by the number of the message, from 1, and its command byte. */
  fate: (count: number, command: number) => Fate = () => 'fine';
  /** Hurts what is read from an address. */
  misread: (at: number, byte: number) => number = (_, byte) => byte;
  isInLoader = false;
  resets = 0;
  leaves = 0;
  opens: number[] = [];
  closes = 0;
  private readonly options: FakeOptions;
  private readonly pageBytes: number;
  private ends = new StreamEnds();
  private input: number[] = [];
  private address = 0;
  private nextErase = 0;

  constructor(options: FakeOptions) {
    this.options = options;
    this.pageBytes = options.protocol === 1 ? 128 : 256;
    this.flash = new Uint8Array(options.flashBytes).fill(0xff);
  }

  pressReset(): void {
    this.resets++;
    this.isInLoader = true;
    this.input = [];
    this.nextErase = 0;
  }

  say(...bytes: number[]): void {
    this.ends.data(Uint8Array.from(bytes));
  }

  readonly open = async (baud: number): Promise<OpenedLoader> => {
    this.opens.push(baud);
    const ends = new StreamEnds();
    this.ends = ends;
    if (this.options.opensInLoader) this.pressReset();
    const line: LoaderLine = {
      write: (bytes) => {
        if (baud === this.options.baud && !ends.ended && this.isInLoader) this.receive(bytes);
      },
      onData: (listener) => ends.onData(listener),
      onClose: (listener) => ends.onClose(listener),
      pulseReset: async () => {
        if (this.options.hasReset === false) return false;
        if (this.options.hasReset !== 'swallowed') this.pressReset();
        return true;
      },
      close: async () => {
        this.closes++;
        ends.end('The port was closed.');
      },
    };
    return { ok: true, line };
  };

  private receive(bytes: Uint8Array): void {
    this.input.push(...bytes);
    for (;;) {
      const message = this.options.protocol === 1 ? this.nextV1() : this.nextV2();
      if (!message) return;
      this.handle(message);
    }
  }

  private nextV1(): number[] | null {
    const { input } = this;
    const lengths: Record<number, number> = { 85: 4, 116: 5 };
    const length = input[0] === 0x64 ? 5 + (input[1] ?? 0) * 256 + (input[2] ?? 0) : (lengths[input[0] ?? 0] ?? 2);
    return input.length < length ? null : input.splice(0, length);
  }

  private nextV2(): number[] | null {
    const { input } = this;
    while (input.length > 0 && input[0] !== 0x1b) input.shift();
    const length = 6 + (input[2] ?? 0) * 256 + (input[3] ?? 0);
    return input.length < 6 || input.length < length ? null : input.splice(0, length);
  }

  private handle(message: number[]): void {
    const isV1 = this.options.protocol === 1;
    const body = isV1 ? message : message.slice(5, -1);
    const command = body[0] ?? 0;
    this.heard.push(Buffer.from(message.slice(0, isV1 ? 4 : 12)).toString('hex'));
    const fate = this.fate(this.heard.length, command);
    if (fate === 'lost') return;
    if (fate === 'unplug') {
      this.ends.end('The cable was pulled.');
      return;
    }
    const answer = isV1 ? this.doV1(body) : this.doV2(body);
    if (fate === 'unheard') return;
    if (typeof fate !== 'string') this.say(...fate);
    else if (isV1) this.say(0x14, ...answer, 0x10);
    else this.say(...framed(message[1] ?? 0, [command, ...answer]));
  }

  private doV1(body: number[]): number[] {
    const [command, high = 0, low = 0] = body;
    if (command === 0x75) return [...this.options.signature];
    if (command === 0x55) this.address = (high + low * 256) * 2;
    if (command === 0x64) {
      this.flash.fill(0xff, this.address, this.address + this.pageBytes);
      this.program(body.slice(4, -1));
    }
    if (command === 0x74) return this.read(high * 256 + low);
    if (command === 0x51) this.left();
    return [];
  }

  private doV2(body: number[]): number[] {
    const [command, a = 0, b = 0, c = 0, d = 0] = body;
    if (command === 0x01) return [0, 8, ...Buffer.from('STK500_2')];
    if (command === 0x1b) return [0, this.options.signature[d] ?? 0, 0];
    if (command === 0x06) this.address = ((a & 0x7f) * 0x1000000 + b * 0x10000 + c * 256 + d) * 2;
    if (command === 0x13) {
      this.flash.fill(0xff, this.nextErase, this.nextErase + this.pageBytes);
      this.nextErase += this.pageBytes;
      this.program(body.slice(10));
    }
    if (command === 0x14) return [0, ...this.read(a * 256 + b), 0];
    if (command === 0x11) this.left();
    return [0];
  }

  /** Writing only clears bits, as in flash. */
  private program(data: readonly number[]): void {
    for (const [index, byte] of data.entries()) {
      const at = this.address + index;
      this.flash[at] = (this.flash[at] ?? 0) & byte;
    }
  }

  private read(length: number): number[] {
    return Array.from(this.flash.subarray(this.address, this.address + length), (byte, index) =>
      this.misread(this.address + index, byte),
    );
  }

  private left(): void {
    this.leaves++;
    this.isInLoader = false;
  }
}

export function framed(sequence: number, body: readonly number[]): number[] {
  const bytes = [0x1b, sequence, body.length >> 8, body.length & 0xff, 0x0e, ...body];
  return [...bytes, bytes.reduce((xor, byte) => xor ^ byte, 0)];
}

export const SIGNATURES = {
  mega328p: [0x1e, 0x95, 0x0f],
  mega328pb: [0x1e, 0x95, 0x16],
  mega2560: [0x1e, 0x98, 0x01],
  other: [0x1e, 0x93, 0x0b],
} as const;

export function newerBoard(more: Partial<FakeOptions> = {}): FakeLoader {
  return new FakeLoader({ protocol: 1, baud: 115_200, signature: SIGNATURES.mega328p, flashBytes: 32_768, ...more });
}

export function olderBoard(more: Partial<FakeOptions> = {}): FakeLoader {
  return newerBoard({ baud: 57_600, ...more });
}

export function largeBoard(more: Partial<FakeOptions> = {}): FakeLoader {
  return newerBoard({ protocol: 2, signature: SIGNATURES.mega2560, flashBytes: 262_144, ...more });
}

/** Lets the clock run until the work is done, an hour at most. */
export async function settled<T>(clock: FakeClock, work: Promise<T>): Promise<T> {
  let isDone = false;
  void work.finally(() => {
    isDone = true;
  });
  for (let n = 0; n < 72_000 && !isDone; n++) await clock.advance(50);
  return work;
}
