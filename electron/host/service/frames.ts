/**
 * Keeps what was said on the line of one board, decoded, for the person who
 * looks for the cause of trouble. It listens only: no byte is altered or delayed.
 *
 * Heartbeats and looks at the supply would soon push everything else out, so of
 * those answered one after another only the last is kept, with their count. One
 * that is sent again or not answered stays, and the count starts anew after it.
 */
import { type AnswerLine, parseLine, type RequestLine } from '../../../shared/link/line.ts';
import { frameMeaning } from '../../../shared/link/meaning.ts';
import type { Frame } from '../../../shared/workbench/contract.ts';
import type { ByteStream } from '../stream.ts';
import { LineCutter, type Piece } from './line-cutter.ts';

const MOST = 200;
/** Of bytes that are no text this many are shown. */
const MOST_BYTES = 16;

type Direction = Frame['direction'];

interface Asked {
  readonly line: RequestLine;
  readonly text: string;
  readonly frame: Frame;
  readonly isAgain: boolean;
  answered: boolean;
}

/** Requests of one word that come of themselves, again and again. */
interface Routine {
  waiting: Asked | null;
  /** Those answered one after another, merged into the last. */
  merged: { readonly request: Frame; readonly answer: Frame; readonly count: number } | null;
}

/** By word, and how they are counted. */
const ROUTINE = { beat: 'beats', supply: 'looks at the supply' } as const;
type RoutineWord = keyof typeof ROUTINE;

const isRoutine = (word: string): word is RoutineWord => Object.hasOwn(ROUTINE, word);

export class FrameRecorder {
  private readonly now: () => Date;
  private ring: Frame[] = [];
  private count = 0;
  private handedOut = 0;
  private readonly taps = new Set<() => void>();
  /** The last request of each sequence number. */
  private readonly asked = new Map<number, Asked>();
  private routines = freshRoutines();

  /** `now` gives the wall-clock time. */
  constructor(now: () => Date) {
    this.now = now;
  }

  /** The last 200, oldest first. Numbers count every line, also those left out. */
  recent(): Frame[] {
    this.flush();
    return [...this.ring];
  }

  /** Lines for an entry of the log: what was said since they were asked for last. */
  news(): string[] {
    const fresh = this.recent().filter(({ number }) => number > this.handedOut);
    this.handedOut = this.count;
    return fresh.map(frameLine);
  }

  /** The same stream, overheard from now on until it ends. */
  tap(stream: ByteStream): ByteStream {
    const cutters = { toBoard: new LineCutter(), fromBoard: new LineCutter() };
    const hear = (direction: Direction, bytes: Uint8Array): void => {
      this.flush();
      this.take(direction, cutters[direction].push(bytes, this.now()));
    };
    const flush = (): void => {
      const now = this.now();
      for (const direction of ['toBoard', 'fromBoard'] as const) this.take(direction, cutters[direction].stale(now));
    };
    let ended = false;
    this.mark('toBoard', 'opened', 'The port was opened.');
    this.taps.add(flush);
    stream.onData((bytes) => hear('fromBoard', bytes));
    stream.onClose((cause) => {
      ended = true;
      this.taps.delete(flush);
      for (const direction of ['toBoard', 'fromBoard'] as const) this.take(direction, cutters[direction].end());
      this.mark('fromBoard', `closed: ${cause}`, `The connection ended. ${cause}`);
    });
    return {
      write: (bytes) => {
        // First, because the answer may come before `write` returns.
        if (!ended) hear('toBoard', bytes);
        stream.write(bytes);
      },
      onData: (listener) => stream.onData(listener),
      onClose: (listener) => stream.onClose(listener),
      close: () => stream.close(),
    };
  }

  /** A message that is no line, as to and from a boot loader; `meaning` is its sentence. */
  note(direction: Direction, bytes: Uint8Array, meaning: string): void {
    this.add({ direction, text: bytesText(bytes), meaning, sound: true });
  }

  /** Something that happened to the line itself, in words; the talk before it is over. */
  mark(direction: Direction, text: string, meaning: string): void {
    this.add({ direction, text: text.replace(/\s+/g, ' '), meaning, sound: true });
    this.asked.clear();
    this.routines = freshRoutines();
  }

  private flush(): void {
    for (const flush of this.taps) flush();
  }

  private take(direction: Direction, pieces: readonly Piece[]): void {
    for (const piece of pieces) {
      if (piece.kind === 'line') this.line(direction, piece);
      else {
        const { at, text } = piece;
        this.add({ direction, text: printable(text), meaning: RUBBISH[piece.kind](text.length), sound: false }, at);
      }
    }
  }

  private line(direction: Direction, { at, text }: Piece): void {
    const line = parseLine(text);
    const asked = line.kind === 'answer' ? this.asked.get(line.sequence) : undefined;
    const { meaning, sound } = frameMeaning(text, direction, asked?.line);
    const before = line.kind === 'request' ? this.asked.get(line.sequence) : undefined;
    // The same number comes round after 250 other requests at the earliest.
    const isAgain = before?.text === text && !before.answered && this.count - before.frame.number < MOST;
    const said = isAgain ? `${meaning} Sent again.` : meaning;
    const frame = this.add({ direction, text: printable(text), meaning: said, sound }, at);
    if (line.kind === 'request' && direction === 'toBoard') {
      this.wasAsked({ line, text, frame, isAgain, answered: false });
    }
    if (line.kind === 'answer' && asked) this.wasAnswered(line, frame, asked);
  }

  private wasAsked(asked: Asked): void {
    this.asked.set(asked.line.sequence, asked);
    const { word } = asked.line;
    if (!isRoutine(word)) return;
    const routine = this.routines[word];
    if (asked.isAgain || routine.waiting !== null) routine.merged = null;
    routine.waiting = asked;
  }

  private wasAnswered({ outcome }: AnswerLine, answer: Frame, asked: Asked): void {
    asked.answered = true;
    const { word } = asked.line;
    if (!isRoutine(word) || asked !== this.routines[word].waiting) return;
    this.routines[word].waiting = null;
    const isPlain = outcome.ok && !asked.isAgain;
    this.routines[word].merged = isPlain ? this.merge(word, asked.frame, answer) : null;
  }

  /** Leaves out the one before this one. */
  private merge(word: RoutineWord, request: Frame, answer: Frame): Routine['merged'] {
    const before = this.routines[word].merged;
    if (before === null) return { request, answer, count: 1 };
    const count = before.count + 1;
    const counted = (frame: Frame): Frame => ({
      ...frame,
      meaning: `${frame.meaning} ${count} ${ROUTINE[word]}, only the last is shown.`,
    });
    const merged = { request: counted(request), answer: counted(answer), count };
    const instead = new Map([
      [request, merged.request],
      [answer, merged.answer],
    ]);
    this.ring = this.ring
      .filter((frame) => frame !== before.request && frame !== before.answer)
      .map((frame) => instead.get(frame) ?? frame);
    return merged;
  }

  private add(said: Omit<Frame, 'number' | 'at'>, at = this.now()): Frame {
    this.count += 1;
    const frame = { number: this.count, at: at.toISOString(), ...said };
    this.ring.push(frame);
    if (this.ring.length > MOST) this.ring.shift();
    return frame;
  }
}

function freshRoutines(): Record<RoutineWord, Routine> {
  return { beat: { waiting: null, merged: null }, supply: { waiting: null, merged: null } };
}

const RUBBISH: Readonly<Record<Exclude<Piece['kind'], 'line'>, (bytes: number) => string>> = {
  unfinished: (bytes) => `Noise: ${bytes} ${bytes === 1 ? 'byte' : 'bytes'} without an end of line.`,
  tooLong: () => 'Noise: too long for a line.',
  rest: () => 'Noise: more of a line that is too long.',
};

/** `19:00:01.250 > ?07 dial 2 0 18000 CB73  | Set dial 0 of site 2 to 18.0 s.`, time in UTC; `<` comes from the board. */
export function frameLine({
  at,
  direction,
  text,
  meaning,
}: Pick<Frame, 'at' | 'direction' | 'text' | 'meaning'>): string {
  return `${at.slice(11, 23)} ${direction === 'toBoard' ? '>' : '<'} ${text}  | ${meaning}`;
}

const hex2 = (value: number): string => value.toString(16).toUpperCase().padStart(2, '0');

function printable(text: string): string {
  return text.replace(/[^\x20-\x7e]/g, (char) => `\\x${hex2(char.charCodeAt(0) & 0xff)}`);
}

/** A long message by its first bytes, its last one and its length. */
function bytesText(bytes: Uint8Array): string {
  if (bytes.length <= MOST_BYTES) return Array.from(bytes, hex2).join(' ');
  const shown = Array.from(bytes.subarray(0, MOST_BYTES - 1), hex2).join(' ');
  return `${shown} ... ${hex2(bytes.at(-1) ?? 0)} (${bytes.length} bytes)`;
}
