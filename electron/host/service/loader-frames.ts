/**
 * The talk with a boot loader as frames: STK500 version 1 (AVR061) and version
 * 2 (AVR068), each message with its sentence. Codes that are only remembered
 * are marked. Nothing is altered or delayed.
 */
import { LOADER_ODD, LOADER_REFUSES } from '../../../shared/workbench/story/groups.ts';
import type { LoaderLine } from '../loader/line.ts';
import type { FrameRecorder } from './frames.ts';

/** Version 1, first byte of a message. AVR061. */
const V1: Readonly<Record<number, (message: Uint8Array) => string>> = {
  48: () => 'Asks whether the boot loader listens.',
  117: () => 'Asks for the signature of the chip.',
  85: ([, low = 0, high = 0]) => `Set the address to byte ${2 * (low + 256 * high)}.`,
  100: ([, high = 0, low = 0]) => `Write a page of ${low + 256 * high} bytes.`,
  116: ([, high = 0, low = 0]) => `Asks for a page of ${low + 256 * high} bytes.`,
  81: () => 'Leave the boot loader.',
  // From memory.
  80: () => 'Begin programming.',
};

/** Version 2, first byte of a body. AVR068. */
const V2: Readonly<Record<number, (body: Uint8Array) => string>> = {
  1: () => 'Asks whether the boot loader listens.',
  // Bit 31 only says that the address is above 64 KB.
  6: ([, a = 0, b = 0, c = 0, d = 0]) =>
    `Set the address to byte ${2 * (((a & 0x7f) * 256 + b) * 65_536 + c * 256 + d)}.`,
  19: ([, high = 0, low = 0]) => `Write a page of ${low + 256 * high} bytes.`,
  20: ([, high = 0, low = 0]) => `Asks for a page of ${low + 256 * high} bytes.`,
  27: () => 'Asks for the signature of the chip.',
  // From memory.
  16: () => 'Begin programming.',
  17: () => 'Leave the boot loader.',
};

/** Version 2: start byte and length of what stands before a body. */
const V2_START = 0x1b;
const V2_HEAD = 5;
/** First byte of an answer of version 1. */
export const V1_INSYNC = 0x14;
const V1_OK = 0x10;
const V2_OK = 0x00;

/** Sentence where a port has no line to the reset pin. */
export const NO_RESET = 'This port cannot reset the board.';

const counted = (bytes: Uint8Array): string => `${bytes.length} ${bytes.length === 1 ? 'byte' : 'bytes'}`;

export function loaderRequestMeaning(message: Uint8Array): string {
  const body = bodyOf(message);
  const say = body ? V2[body[0] ?? -1] : V1[message[0] ?? -1];
  return say?.(body ?? message) ?? `To the boot loader: ${counted(message)}.`;
}

/** `message`: all that came before the next request. */
export function loaderAnswerMeaning(message: Uint8Array): string {
  const body = bodyOf(message);
  if (body) return body[1] === V2_OK ? 'The boot loader: done.' : `${LOADER_REFUSES} with ${hex(body[1] ?? 0)}.`;
  if (message[0] !== V1_INSYNC) return `${LOADER_ODD} as it should be: ${counted(message)}.`;
  if (message.at(-1) !== V1_OK || message.length < 2) return `${LOADER_ODD} whole: ${counted(message)}.`;
  return message.length === 2 ? 'The boot loader: done.' : `The boot loader: ${counted(message.subarray(1, -1))}.`;
}

/** The body of a whole message of version 2, or null. */
function bodyOf(message: Uint8Array): Uint8Array | null {
  const [start, , high = 0, low = 0] = message;
  const length = 256 * high + low;
  return start === V2_START && message.length === V2_HEAD + length + 1
    ? message.subarray(V2_HEAD, V2_HEAD + length)
    : null;
}

const hex = (value: number): string => value.toString(16).toUpperCase().padStart(2, '0');

/** The same line, overheard until it ends. An answer becomes a frame with the next request or with the end. */
export function tapLoader(recorder: FrameRecorder, line: LoaderLine, baud: number): LoaderLine {
  let heard: number[] = [];
  let ended = false;
  const flush = (): void => {
    if (heard.length > 0)
      recorder.note('fromBoard', Uint8Array.from(heard), loaderAnswerMeaning(Uint8Array.from(heard)));
    heard = [];
  };
  recorder.mark('toBoard', `opened at ${baud} baud`, `The port was opened at ${baud} baud for the boot loader.`);
  line.onData((bytes) => heard.push(...bytes));
  line.onClose((cause) => {
    ended = true;
    flush();
    recorder.mark('fromBoard', `closed: ${cause}`, `The connection ended. ${cause}`);
  });
  return {
    pulseReset: async () => {
      flush();
      const pulsed = await line.pulseReset();
      recorder.mark('toBoard', 'reset', pulsed ? 'Reset the board.' : NO_RESET);
      return pulsed;
    },
    write: (bytes) => {
      flush();
      if (!ended) recorder.note('toBoard', bytes, loaderRequestMeaning(bytes));
      line.write(bytes);
    },
    onData: (listener) => line.onData(listener),
    onClose: (listener) => line.onClose(listener),
    close: () => line.close(),
  };
}
