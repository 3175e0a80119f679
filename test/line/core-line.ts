/**
 * The host-built core behind a line of 57,600 baud, in its own time: byte stream and clock of a session, as `DirectLine` is
 * for the emulated chip, and a hundred times faster. Time goes on only while something is awaited.
 */
import { spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import type { Clock } from '../../electron/host/clock.ts';
import { type ByteStream, StreamEnds } from '../../electron/host/stream.ts';
import type { Chip } from '../../shared/table/format.ts';
import { buildProgram, SANITIZERS } from '../fuzz/build.ts';

/** Under sanitizers, but for the long count, which wants speed; long under sanitizers is what test/fuzz is for. */
const FLAGS = process.env.AMBERWICK_UPLOADS ? ['-O3'] : SANITIZERS;
const BOARD = fileURLToPath(new URL('board.c', import.meta.url));
/** Longest step when nothing is due, ms. */
const STEP_MS = 1000;

/** The start of a table: what the board has loaded, and its own time, ms. */
export interface Loaded {
  readonly at: number;
  /** Empty: it has none now. */
  readonly image: Uint8Array;
}

interface Timer {
  readonly at: number;
  readonly then: () => void;
}

export class CoreLine implements Clock {
  /** Called for each table that starts, whatever started it. */
  onLoaded: (loaded: Loaded) => void = () => {};
  private readonly child;
  private ends = new StreamEnds();
  private timers: Timer[] = [];
  private time = 0;
  private going: number[] = [];
  private orders: string[] = [];
  private text = '';
  private lines: string[] = [];
  private wake: () => void = () => {};
  private isOver = false;

  constructor(chip: Chip) {
    this.child = spawn(buildProgram({ name: 'line', chip, sources: [BOARD], flags: FLAGS }), {
      stdio: ['pipe', 'pipe', 'inherit'],
    });
    this.child.stdout.on('data', (bytes: Buffer) => this.hear(bytes.toString('latin1')));
    this.child.on('close', () => {
      this.isOver = true;
      this.wake();
    });
  }

  /** Puts power on with this EEPROM. */
  powerOn(eeprom: Uint8Array): void {
    this.orders.push(`eeprom ${hex(eeprom)}`, 'on 1');
  }

  /** Started anew by its reset pin or by power: what was on the line is lost, the EEPROM stays. */
  restart(cause: 'power' | 'reset'): void {
    this.going = [];
    this.orders.push(cause === 'power' ? 'on 1' : 'on 2');
  }

  /** The far end of a cable that is plugged in now; one at a time. */
  plug(): ByteStream {
    this.ends = new StreamEnds();
    const { ends } = this;
    return {
      write: (bytes) => void this.going.push(...bytes),
      onData: (listener) => ends.onData(listener),
      onClose: (listener) => ends.onClose(listener),
      close: async () => ends.end('The connection was closed.'),
    };
  }

  now(): number {
    return this.time;
  }

  setTimer(ms: number, then: () => void): () => void {
    const timer = { at: this.time + Math.max(0, ms), then };
    this.timers.push(timer);
    return () => {
      const at = this.timers.indexOf(timer);
      if (at >= 0) this.timers.splice(at, 1);
    };
  }

  /** Lets board time pass until the promise is settled. */
  async until<T>(promise: Promise<T>): Promise<T> {
    let isSettled = false;
    const done = promise.finally(() => {
      isSettled = true;
    });
    done.catch(() => {});
    for (;;) {
      await new Promise((resolve) => setImmediate(resolve));
      if (isSettled) return done;
      await this.step();
    }
  }

  async pass(ms: number): Promise<void> {
    await this.until(new Promise<void>((resolve) => this.setTimer(ms, resolve)));
  }

  /** The image in the board's RAM, empty without one: what is true, whatever the line says. */
  async running(): Promise<Uint8Array> {
    this.tell('image');
    return unhex((await this.lineWith('image ')).slice(6));
  }

  close(): void {
    this.child.stdin.end();
  }

  private async step(): Promise<void> {
    const due = Math.min(this.time + STEP_MS, ...this.timers.map(({ at }) => at));
    const most = Math.max(1, Math.ceil(due - this.time));
    const bytes = this.going.length > 0 ? ` ${hex(this.going)}` : '';
    this.going = [];
    this.tell(`go ${most}${bytes}`);
    const [, now, sent = '-'] = (await this.lineWith('at ')).split(' ');
    this.time = Number(now);
    const came = unhex(sent);
    if (came.length > 0) this.ends.data(came);
    const ready = this.timers.filter(({ at }) => at <= this.time);
    this.timers = this.timers.filter(({ at }) => at > this.time);
    for (const { then } of ready.sort((a, b) => a.at - b.at)) then();
  }

  private tell(command: string): void {
    this.child.stdin.write(`${[...this.orders.splice(0), command].join('\n')}\n`);
  }

  private hear(text: string): void {
    const pieces = (this.text + text).split('\n');
    this.text = pieces.pop() ?? '';
    this.lines.push(...pieces);
    if (pieces.length > 0) this.wake();
  }

  /** The next line that begins so. Throws when the core did what it must not. */
  private async lineWith(start: string): Promise<string> {
    for (;;) {
      const line = this.lines.shift();
      if (line === undefined) {
        if (this.isOver) throw new Error('the core ended');
        await new Promise<void>((resolve) => {
          this.wake = resolve;
        });
      } else if (line.startsWith(start)) return line;
      else if (line.startsWith('table ')) {
        const [, at, image = '-'] = line.split(' ');
        this.onLoaded({ at: Number(at), image: unhex(image) });
      } else throw new Error(`the core said: ${line}`);
    }
  }
}

const hex = (bytes: Iterable<number>) =>
  Buffer.from([...bytes])
    .toString('hex')
    .toUpperCase();
const unhex = (text: string) => (text === '-' ? new Uint8Array(0) : Uint8Array.from(Buffer.from(text, 'hex')));
