/**
 * A whole board for tests: a boot loader in front of the emulated chip. After a
 * reset the loader listens; then the bytes of the flash run, whoever wrote
 * them. Nothing happens but through the clock, so a test may own time.
 *
 *     const board = new BareBoard({ loader: 'v1-115200', clock });
 *     await writeFirmware({ open: (baud) => board.openLoader(baud), clock, ... });
 *
 * `plugPty` (pty-front.ts) puts the same board behind a real device node.
 */
import type { Clock } from '../../electron/host/clock.ts';
import type { LoaderLine, OpenedLoader } from '../../electron/host/loader/line.ts';
import type { LoaderKind } from '../../electron/host/loader/types.ts';
import type { Opened } from '../../electron/host/service/ports.ts';
import { StreamEnds } from '../../electron/host/stream.ts';
import type { Level } from '../../electron/host/virtual/chain.ts';
import { BAUD } from '../../shared/link/vocabulary.ts';
import type { Chip } from '../../shared/table/format.ts';
import type { Event, Faults } from './targets/faults.ts';
import type { Flash } from './targets/flash.ts';
import { makeTarget, type Target } from './targets/kinds.ts';
import { RunningProgram } from './targets/program.ts';
import { heardAt } from './targets/rates.ts';
import { Wire } from './targets/wire.ts';

/** A program of somebody else, as far as a host can tell: it says this again and again, and drives no pin. */
export interface Chatter {
  readonly says: string;
  readonly everyMs: number;
  readonly baud: number;
}

export interface BareBoardOptions {
  readonly loader: LoaderKind;
  readonly clock: Clock;
  /** Six hexadecimal digits; default: the chip that belongs to the loader. */
  readonly signature?: string;
  /** Contents of the flash; default: factory-fresh, nothing but the boot loader. */
  readonly flash?: Uint8Array;
  /** Stands for the program as long as the flash is what it was. */
  readonly chatter?: Chatter;
  readonly eeprom?: Uint8Array;
  /** Opening the port resets the board; true by default, as on most boards. */
  readonly resetsOnOpen?: boolean;
  /** The port has modem lines; true by default. Else `pulseReset` says false. */
  readonly modemLines?: boolean;
  /** Fed by the layout, so that it lives on without the cable; false by default. */
  readonly ownPower?: boolean;
  /** See `V2Options`. */
  readonly strictSequence?: boolean;
}

/** The host's end of a cable. */
export interface Plug {
  readonly heard: (bytes: Uint8Array) => void;
  readonly ended: (cause: string) => void;
}

export class BareBoard {
  readonly chip: Chip;
  readonly loader: LoaderKind;
  readonly flash: Flash;
  readonly target: Target;
  state: 'off' | 'loader' | 'program' = 'off';
  /** Commands that the loader carried out since the faults were set. */
  commands: number[] = [];
  /** Openings of the port so far. */
  openings = 0;
  onPin: (pin: number, level: Level) => void = () => {};
  private readonly options: BareBoardOptions;
  private readonly clock: Clock;
  private readonly toBoard: Wire;
  private readonly toHost: Wire;
  private readonly levels = new Map<number, Level>();
  private memory: Uint8Array;
  private faults: Faults = {};
  private lostPulses = 0;
  private bytesIn = 0;
  private silent = false;
  private answered = false;
  private afterAnswer: Event | null = null;
  private plugged = true;
  private plug: Plug | null = null;
  private hostBaud = 0;
  private program: RunningProgram | null = null;
  private chatter: Chatter | null;
  private stopChatter: () => void = () => {};

  /** Plugged in and powered, so its loader or program runs at once. */
  constructor(options: BareBoardOptions) {
    this.options = options;
    this.clock = options.clock;
    this.loader = options.loader;
    this.chatter = options.chatter ?? null;
    this.toBoard = new Wire(options.clock, (bytes) => this.arrive(bytes));
    this.toHost = new Wire(options.clock, (bytes) => {
      this.plug?.heard(bytes);
      // What was to happen once this answer is there.
      const event = this.afterAnswer;
      this.afterAnswer = null;
      if (event) this.happen(event);
    });
    const made = makeTarget(options.loader, {
      ...options,
      send: (bytes) => this.answer(bytes),
      startProgram: () => this.startProgram('reset'),
      carriedOut: (command) => this.carriedOut(command),
    });
    this.chip = made.chip;
    this.flash = made.flash;
    this.target = made.target;
    this.memory = new Uint8Array(made.eepromBytes).fill(0xff);
    if (options.eeprom) this.memory.set(options.eeprom);
    this.begin('power');
  }

  /** Contents of the EEPROM as they are now. */
  get eeprom(): Uint8Array {
    return this.program?.board.eeprom.memory.slice() ?? this.memory.slice();
  }

  /** Pins that are outputs now, whatever they show. */
  get drivenPins(): number[] {
    return [...this.levels].filter(([, level]) => level !== 'z').map(([pin]) => pin);
  }

  get pluggedIn(): boolean {
    return this.plugged;
  }

  /** Replaces what goes wrong, and counts anew from here. */
  setFaults(faults: Faults): void {
    this.faults = faults;
    this.lostPulses = faults.lostPulses ?? 0;
    this.toBoard.setFault(faults.toBoard ?? null);
    this.toHost.setFault(faults.toHost ?? null);
    this.bytesIn = 0;
    this.commands = [];
    this.answered = false;
    this.afterAnswer = null;
  }

  /** As `SerialPorts.openLoader` for this board's port, in memory. */
  async openLoader(baud: number): Promise<OpenedLoader> {
    if (!this.plugged) return { ok: false, error: { kind: 'missing', detail: 'no such file or directory' } };
    if (this.plug) return { ok: false, error: { kind: 'busy', detail: 'cannot lock port' } };
    return { ok: true, line: new MemoryLine(this, baud) };
  }

  /** As `SerialPorts.open`. */
  async open(): Promise<Opened> {
    const opened = await this.openLoader(BAUD);
    return opened.ok ? { ok: true, stream: opened.line } : opened;
  }

  /** Joins the host's end at a rate; most boards are reset by it. */
  attach(plug: Plug, baud: number): void {
    this.openings += 1;
    this.plug = plug;
    this.hostBaud = baud;
    if (this.options.resetsOnOpen ?? true) this.pulse();
  }

  /** The host sets another rate on the open port. */
  setRate(baud: number): void {
    this.hostBaud = baud;
  }

  detach(): void {
    this.plug = null;
    this.toHost.clear();
  }

  /** Bytes from the host. */
  write(bytes: Uint8Array): void {
    if (this.plug) this.toBoard.send(bytes, this.hostBaud);
  }

  /** A pulse by the modem lines; false where there are none. */
  pulseReset(): boolean {
    if (!(this.options.modemLines ?? true)) return false;
    this.pulse();
    return true;
  }

  /** Somebody presses the button on the board. */
  pressReset(): void {
    if (this.state !== 'off') this.begin('reset');
  }

  /** The cable is pulled; without own power the board goes off. */
  unplug(): void {
    if (!this.plugged) return;
    this.plugged = false;
    this.toBoard.clear();
    this.toHost.clear();
    const { plug } = this;
    this.plug = null;
    if (!this.options.ownPower) this.power(false);
    plug?.ended('The cable was pulled.');
  }

  replug(): void {
    this.plugged = true;
    this.power(true);
  }

  power(on: boolean): void {
    if (on === (this.state !== 'off')) return;
    if (on) this.begin('power');
    else this.halt('off');
  }

  private pulse(): void {
    if (this.state === 'off') return;
    if (this.lostPulses > 0) this.lostPulses -= 1;
    else this.begin('reset');
  }

  private begin(cause: 'power' | 'reset' | 'watchdog'): void {
    this.halt('loader');
    this.silent = false;
    this.target.start(cause);
  }

  private halt(state: 'off' | 'loader'): void {
    this.target.stop();
    this.stopChatter();
    if (this.program) this.memory = this.program.board.eeprom.memory.slice();
    this.program?.stop();
    this.program = null;
    this.state = state;
  }

  private startProgram(cause: 'reset'): void {
    if (this.flash.written.length > 0) this.chatter = null;
    if (this.flash.blank && !this.chatter && this.target.listensWhenBlank) {
      this.target.start(cause);
      return;
    }
    this.halt('loader');
    this.state = 'program';
    if (this.chatter) this.chat(this.chatter);
    else if (!this.flash.program.every((byte) => byte === 0xff)) this.run();
  }

  private run(): void {
    this.program = new RunningProgram({
      chip: this.chip,
      flash: this.flash.bytes,
      eeprom: this.memory,
      clock: this.clock,
      cause: 'reset',
      causeBits: this.target.clearsCause ? 0 : null,
      said: (bytes) => this.say(bytes, BAUD),
      pinChanged: (pin, level) => {
        this.levels.set(pin, level);
        this.onPin(pin, level);
      },
      watchdog: () => this.begin('watchdog'),
    });
  }

  private chat(chatter: Chatter): void {
    this.stopChatter = this.clock.setTimer(chatter.everyMs, () => {
      this.say(Buffer.from(chatter.says), chatter.baud);
      this.chat(chatter);
    });
  }

  private arrive(bytes: Uint8Array): void {
    const own = this.state === 'loader' ? this.target.baud : (this.chatter?.baud ?? BAUD);
    const heard = heardAt(bytes, this.hostBaud, own);
    if (this.state === 'program') {
      this.program?.write(Uint8Array.from(heard, ({ byte }) => byte));
      return;
    }
    for (const one of heard) {
      if (this.state !== 'loader' || !this.plugged) return;
      if (!this.silent) this.target.receive(one);
      this.bytesIn += 1;
      if (this.bytesIn === this.faults.afterByte?.number) this.happen(this.faults.afterByte.event);
    }
  }

  private carriedOut(command: number): boolean {
    this.commands.push(command);
    const { afterCommand } = this.faults;
    if (this.commands.length !== afterCommand?.number) return !this.silent;
    if (afterCommand.answered) this.afterAnswer = afterCommand.event;
    else this.happen(afterCommand.event);
    return afterCommand.answered;
  }

  private happen(event: Event): void {
    if (event === 'unplug') this.unplug();
    else if (event === 'silence') this.silent = true;
    else this.startProgram('reset');
  }

  private answer(bytes: readonly number[]): void {
    const late = this.answered ? 0 : (this.faults.lateFirstAnswerMs ?? 0);
    this.answered = true;
    this.say(Uint8Array.from(bytes), this.target.baud, late);
  }

  private say(bytes: Uint8Array, baud: number, lateMs = 0): void {
    if (!this.plug) return;
    const heard = Uint8Array.from(heardAt(bytes, baud, this.hostBaud), ({ byte }) => byte);
    if (heard.length > 0) this.toHost.send(heard, baud, lateMs);
  }
}

class MemoryLine implements LoaderLine {
  private readonly board: BareBoard;
  private readonly ends = new StreamEnds();

  constructor(board: BareBoard, baud: number) {
    this.board = board;
    board.attach({ heard: (bytes) => this.ends.data(bytes), ended: (cause) => this.ends.end(cause) }, baud);
  }

  write(bytes: Uint8Array): void {
    if (!this.ends.ended) this.board.write(bytes);
  }

  onData(listener: (bytes: Uint8Array) => void): void {
    this.ends.onData(listener);
  }

  onClose(listener: (cause: string) => void): void {
    this.ends.onClose(listener);
  }

  async pulseReset(): Promise<boolean> {
    return !this.ends.ended && this.board.pulseReset();
  }

  async close(): Promise<void> {
    if (this.ends.ended) return;
    this.board.detach();
    this.ends.end('The port was closed.');
  }
}
