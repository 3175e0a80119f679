/**
 * Boot loaders of ATmega328P boards that speak STK500 version 1 (application
 * note AVR061: commands, answers, word addresses). Two are common; what each
 * does beyond the note is from memory except where a source is named.
 */
import {
  ByteLoop,
  type Heard,
  type LoaderTarget,
  nextByte,
  nextBytes,
  type Surroundings,
  type Waiting,
} from './loader.ts';

// AVR061, table of commands and answers.
const GET_SYNC = 0x30;
const GET_SIGN_ON = 0x31;
const SET_PARAMETER = 0x40;
const GET_PARAMETER = 0x41;
const SET_DEVICE = 0x42;
const SET_DEVICE_EXT = 0x45;
const ENTER = 0x50;
const LEAVE = 0x51;
const LOAD_ADDRESS = 0x55;
const UNIVERSAL = 0x56;
const PROGRAM_PAGE = 0x64;
const READ_PAGE = 0x74;
const READ_SIGNATURE = 0x75;
const END = 0x20;
const IN_SYNC = 0x14;
const OK = 0x10;

export interface V1Kind {
  readonly baud: number;
  /** Usable flash, bytes (published figures of the loaders' sizes: 512 and 2,048 bytes of 32,768). */
  readonly usable: number;
  /** The newer loader: a wrong end byte resets at once, and leaving does too. */
  readonly strict: boolean;
  /** Gives up after so long without a byte, ms. */
  readonly patienceMs: number;
  /** So many bytes out of place start the program; null: any starts it. */
  readonly mistakes: number | null;
}

/** The newer, small loader. */
export const V1_SMALL: V1Kind = { baud: 115_200, usable: 32_256, strict: true, patienceMs: 1000, mistakes: null };
/** The older loader. */
export const V1_OLD: V1Kind = { baud: 57_600, usable: 30_720, strict: false, patienceMs: 1500, mistakes: 5 };

export const V1_FLASH_BYTES = 0x8000;
export const V1_PAGE_BYTES = 128;
/** Above this the chip cannot run on while it writes (data sheet 8271: the no-read-while-write section). */
const ERASES_EARLY_BELOW = 0x7000;

export class V1Target implements LoaderTarget {
  readonly baud: number;
  /** Commands for the EEPROM, which these loaders do not have: a client should send none. */
  eepromCommands = 0;
  private readonly kind: V1Kind;
  private readonly around: Surroundings;
  private readonly loop: ByteLoop;
  private address = 0;
  private mistakes = 0;
  private buffer = new Uint8Array(V1_PAGE_BYTES);

  constructor(kind: V1Kind, around: Surroundings) {
    this.kind = kind;
    this.baud = kind.baud;
    this.around = around;
    this.loop = new ByteLoop(around.clock);
  }

  start(cause: 'power' | 'reset' | 'watchdog'): void {
    // Only a pulse at the reset pin brings the newer loader up; else it starts the program at once.
    if (this.kind.strict && cause !== 'reset') {
      this.quit();
      return;
    }
    this.address = 0;
    this.mistakes = 0;
    this.loop.begin(this.listen());
    this.wait();
  }

  receive(heard: Heard): void {
    if (!this.loop.listening) return;
    // The newer loader lets its watchdog run out when the other side has another rate.
    if (!(this.kind.strict && heard.broken)) this.wait();
    this.loop.hear(heard);
  }

  stop(): void {
    this.loop.end();
  }

  private wait(): void {
    this.loop.patience(this.kind.patienceMs, () => this.quit());
  }

  private quit(): void {
    this.loop.end();
    this.around.startProgram();
  }

  private *listen(): Waiting<void> {
    for (;;) {
      const command = yield* nextByte();
      yield* this.obey(command);
    }
  }

  private *obey(command: number): Waiting<void> {
    const { flash, signature } = this.around;
    if (command === GET_SYNC || command === ENTER) yield* this.answer(command);
    else if (command === READ_SIGNATURE) yield* this.answer(command, () => [...signature]);
    else if (command === GET_PARAMETER) {
      const which = yield* nextByte();
      yield* this.answer(command, () => [which === 0x81 ? 4 : which === 0x82 ? 4 : 3]);
    } else if (command === SET_DEVICE) {
      yield* nextBytes(20);
      yield* this.answer(command);
    } else if (command === SET_DEVICE_EXT) {
      yield* nextBytes(5);
      yield* this.answer(command);
    } else if (command === UNIVERSAL) {
      const [first, , third = 0] = yield* nextBytes(4);
      const value = !this.kind.strict && first === 0x30 ? (signature[third] ?? 0) : 0;
      yield* this.answer(command, () => [value]);
    } else if (command === LOAD_ADDRESS) {
      const [low = 0, high = 0] = yield* nextBytes(2);
      // Words of two bytes, low byte first (AVR061).
      this.address = (high * 256 + low) * 2;
      yield* this.answer(command);
    } else if (command === PROGRAM_PAGE) yield* this.programPage();
    else if (command === READ_PAGE) {
      const [high = 0, low = 0, memory] = yield* nextBytes(3);
      if (memory !== 0x46) this.eepromCommands += 1;
      const count = (high * 256 + low) % 256 || 256;
      // Whatever memory is asked for, what comes is flash (facts: "answer an EEPROM read with flash").
      yield* this.answer(command, () => Array.from({ length: count }, () => flash.read(this.address++)));
    } else if (command === LEAVE) {
      yield* this.answer(command);
      // The newer one lets its watchdog reset the chip; the older one listens on until its patience is at an end.
      if (this.kind.strict) this.quit();
    } else if (command === SET_PARAMETER && !this.kind.strict) {
      yield* nextBytes(2);
      yield* this.answer(command);
    } else if (command === GET_SIGN_ON && !this.kind.strict) {
      yield* this.answer(command, () => [...Buffer.from('AVR ISP')]);
    } else if (this.kind.strict) yield* this.answer(command);
    else this.mistake();
  }

  private *programPage(): Waiting<void> {
    const { flash } = this.around;
    const [high = 0, low = 0, memory] = yield* nextBytes(3);
    const count = (high * 256 + low) % 256 || 256;
    if (memory !== 0x46) this.eepromCommands += 1;
    const erasesEarly = this.kind.strict && this.address < ERASES_EARLY_BELOW;
    // To save time the newer loader erases while the data is still coming: cut off here, the page is empty.
    if (erasesEarly) flash.erasePage(this.address);
    const data = yield* nextBytes(count);
    // A short page is filled up with what the buffer held before.
    this.buffer.set(data.slice(0, V1_PAGE_BYTES));
    yield* this.answer(PROGRAM_PAGE, () => {
      if (!erasesEarly) flash.erasePage(this.address);
      flash.writePage(this.address, this.buffer);
      if (!this.kind.strict) this.address += count;
      return [];
    });
  }

  /** Waits for the end byte, does what is to be done, and answers. */
  private *answer(command: number, act: () => number[] = () => []): Waiting<void> {
    const end = yield* nextByte();
    if (end !== END) {
      if (this.kind.strict) this.quit();
      else this.mistake();
      return;
    }
    const data = act();
    if (this.around.carriedOut(command)) this.around.send([IN_SYNC, ...data, OK]);
  }

  private mistake(): void {
    this.mistakes += 1;
    if (this.mistakes === this.kind.mistakes) this.quit();
  }
}
