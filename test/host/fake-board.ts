import { fromHex } from '../../shared/link/fields.ts';
import { encodeEvent, encodeNo, encodeOk, type RequestLine } from '../../shared/link/line.ts';
import { LineReader } from '../../shared/link/reader.ts';
import { FakeStream } from './fake-stream.ts';

type Reply = readonly (string | number)[] | { readonly no: number } | null;

/** A board that answers from a script: enough of the protocol for tests of the host. */
export class FakeBoard {
  readonly stream = new FakeStream();
  /** Requests that arrived whole. */
  readonly heard: RequestLine[] = [];
  /** Answers by word; null says nothing. */
  readonly replies: Record<string, (request: RequestLine) => Reply> = {
    who: () => ['amberwick', 1, '1.0.0', 1, 'atmega328p', '00000000', '-', '-'],
    beat: () => [1234],
    begin: (request) => {
      this.staged = new Uint8Array(Number(request.args[0])).fill(0xff);
      return [];
    },
    part: ({ args: [offset = '', hex = ''] }) => {
      this.staged.set(fromHex(hex), Number(offset));
      return [offset];
    },
    start: () => ['ABCD'],
    drop: () => [],
  };
  staged = new Uint8Array(0);
  private readonly reader = new LineReader();
  private events = 0;

  constructor() {
    this.stream.onBoard = (bytes) => {
      for (const line of this.reader.push(bytes)) if (line.kind === 'request') this.answer(line);
    };
  }

  words(): string[] {
    return this.heard.map((request) => request.word);
  }

  event(word: string, ...fields: (string | number)[]): void {
    this.stream.say(encodeEvent(this.events, word, fields));
    this.events = (this.events + 1) & 0xff;
  }

  /** Counts an event that the line had no room for. */
  loseEvent(): void {
    this.events = (this.events + 1) & 0xff;
  }

  private answer(request: RequestLine): void {
    this.heard.push(request);
    const reply = this.replies[request.word]?.(request) ?? null;
    if (reply === null) return;
    this.stream.say('no' in reply ? encodeNo(request.sequence, reply.no) : encodeOk(request.sequence, reply));
  }
}
