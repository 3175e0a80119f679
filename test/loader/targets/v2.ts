/**
 * The boot loader of ATmega2560 boards, which speaks STK500 version 2 (application
 * note AVR068: frames, commands, status bytes). What it does beyond the note
 * is from memory except where a source is named.
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

// AVR068, tables of commands and of status values.
const START = 0x1b;
const TOKEN = 0x0e;
const SIGN_ON = 0x01;
const SET_PARAMETER = 0x02;
const GET_PARAMETER = 0x03;
const LOAD_ADDRESS = 0x06;
const ENTER = 0x10;
const LEAVE = 0x11;
const PROGRAM_FLASH = 0x13;
const READ_FLASH = 0x14;
const PROGRAM_EEPROM = 0x15;
const READ_EEPROM = 0x16;
const READ_FUSE = 0x18;
const READ_LOCK = 0x1a;
const READ_SIGNATURE = 0x1b;
const SPI_MULTI = 0x1d;
const OK = 0x00;
const FAILED = 0xc0;

export const V2_BAUD = 115_200;
export const V2_FLASH_BYTES = 0x40000;
export const V2_PAGE_BYTES = 256;
/** The loader has the last 8,192 bytes. */
export const V2_USABLE = 0x3e000;
/** Until the first byte comes, whatever it is; after each byte it waits much longer (a loop that counts to 8 million). */
const FIRST_MS = 1000;
const NEXT_MS = 6000;
const LONGEST_BODY = 285;
const MARK = 0x21;

export interface V2Options {
  /**
   * Only 1 and the number after the last one are taken, so a frame whose answer was lost cannot be
   * sent again as it was. Newer builds take any number. True by default.
   */
  readonly strictSequence?: boolean;
}

export class V2Target implements LoaderTarget {
  readonly baud = V2_BAUD;
  eepromCommands = 0;
  /** A person would have to reset the board: it talks in words now. */
  inMonitor = false;
  private readonly around: Surroundings;
  private readonly loop: ByteLoop;
  private readonly strictSequence: boolean;
  private expected = 1;
  private address = 0;
  private eraseAddress = 0;
  private heardBytes = 0;
  private marks = 0;
  private leaving = false;

  constructor(around: Surroundings, options: V2Options = {}) {
    this.around = around;
    this.loop = new ByteLoop(around.clock);
    this.strictSequence = options.strictSequence ?? true;
  }

  start(): void {
    this.expected = 1;
    this.address = 0;
    this.eraseAddress = 0;
    this.heardBytes = 0;
    this.marks = 0;
    this.inMonitor = false;
    this.leaving = false;
    this.loop.begin(this.listen());
    this.wait(FIRST_MS);
  }

  receive({ byte }: Heard): void {
    if (!this.loop.listening || this.inMonitor) return;
    this.wait(NEXT_MS);
    // Three in a row among the first bytes open a monitor for people (facts: "three ! open a monitor").
    this.marks = byte === MARK && this.heardBytes < 10 ? this.marks + 1 : 0;
    this.heardBytes += 1;
    if (this.marks === 3) {
      this.inMonitor = true;
      this.loop.end();
      this.around.send([...Buffer.from('\n\rMonitor\n\r> ')]);
      return;
    }
    this.loop.hear({ byte, broken: false });
  }

  stop(): void {
    this.loop.end();
  }

  private wait(ms: number): void {
    this.loop.patience(ms, () => {
      // With nothing to start it listens on.
      if (this.around.flash.blank) this.wait(ms);
      else this.quit();
    });
  }

  private quit(): void {
    this.loop.end();
    this.around.startProgram();
  }

  private *listen(): Waiting<void> {
    for (;;) {
      if ((yield* nextByte()) !== START) continue;
      const sequence = yield* nextByte();
      if (this.strictSequence && sequence !== 1 && sequence !== this.expected) continue;
      const [high = 0, low = 0, token] = yield* nextBytes(3);
      const size = high * 256 + low;
      if (token !== TOKEN || size > LONGEST_BODY) continue;
      const body = yield* nextBytes(size);
      const sum = yield* nextByte();
      // A frame with a wrong sum is dropped without a word.
      if (sum !== xor([START, sequence, high, low, TOKEN, ...body])) continue;
      this.expected = (sequence + 1) & 0xff;
      const answer = this.obey(body);
      if (this.around.carriedOut(body[0] ?? 0)) this.around.send(frame(sequence, answer));
      if (this.leaving) this.quit();
    }
  }

  /** The body of the answer; its first byte repeats the command. */
  private obey(body: readonly number[]): number[] {
    const { flash, signature } = this.around;
    const [command = 0, ...rest] = body;
    const count = (rest[0] ?? 0) * 256 + (rest[1] ?? 0);
    if (command === SIGN_ON) return [command, OK, 8, ...Buffer.from('AVRISP_2')];
    if (command === GET_PARAMETER) return [command, OK, rest[0] === 0x90 ? 0x0f : 2];
    if (command === SET_PARAMETER || command === ENTER) return [command, OK];
    if (command === LEAVE) {
      this.leaving = true;
      return [command, OK];
    }
    if (command === LOAD_ADDRESS) {
      const [a = 0, b = 0, c = 0, d = 0] = rest;
      // Words, most significant byte first; bit 31 says "above 64 KB" and is no part of the address (AVR068).
      this.address = ((a & 0x7f) * 0x1000000 + b * 0x10000 + c * 0x100 + d) * 2;
      return [command, OK];
    }
    if (command === PROGRAM_FLASH) {
      this.programFlash(rest.slice(9, 9 + count));
      return [command, OK];
    }
    if (command === READ_FLASH) {
      const data = Array.from({ length: count }, () => flash.read(this.address++));
      return [command, OK, ...data, OK];
    }
    if (command === READ_SIGNATURE) return [command, OK, signature[rest[3] ?? 0] ?? 0, OK];
    if (command === READ_FUSE || command === READ_LOCK) return [command, OK, 0xff, OK];
    if (command === SPI_MULTI) {
      const [first = 0, , third = 0] = rest.slice(3);
      return [command, OK, 0, first, 0, first === 0x30 ? (signature[third] ?? 0) : 0, OK];
    }
    if (command === PROGRAM_EEPROM || command === READ_EEPROM) this.eepromCommands += 1;
    // Chip erase among them: the loader would erase itself (facts: "chip erase answers failed").
    return [command, FAILED];
  }

  /** Erases by a count of its own from page 0 on, whatever address is written: right only for pages in order. */
  private programFlash(data: readonly number[]): void {
    const { flash } = this.around;
    flash.erasePage(this.eraseAddress);
    this.eraseAddress += V2_PAGE_BYTES;
    flash.writePage(this.address, Uint8Array.from(data));
    this.address += data.length;
  }
}

function frame(sequence: number, body: readonly number[]): number[] {
  const head = [START, sequence, body.length >> 8, body.length & 0xff, TOKEN, ...body];
  return [...head, xor(head)];
}

function xor(bytes: readonly number[]): number {
  return bytes.reduce((sum, byte) => sum ^ byte, 0);
}
