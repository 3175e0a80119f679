/** Any line between host and board as one plain sentence, for people who look for the cause of trouble. */
import { codeOf } from './codes.ts';
import { parseEvent } from './events.ts';
import { type AnswerLine, type BadLine, type EventLine, parseLine, type RequestLine } from './line.ts';
import { answerText, bitsText, flagsText, requestText, secondsText } from './meaning-words.ts';
import { DEEDS, FAULTS, FLAGS, LINK } from './vocabulary.ts';

export type Direction = 'toBoard' | 'fromBoard';

export interface Meaning {
  readonly meaning: string;
  /** False for what is no line of the protocol. */
  readonly sound: boolean;
}

const BAD: Readonly<Record<BadLine, string>> = {
  crc: 'Noise: the line is damaged, its check sum is wrong.',
  tooLong: 'Noise: too long for a line.',
  notPrintable: 'Noise: bytes that no line has.',
  form: 'Noise: not a line of the protocol.',
};

/**
 * `text`: the line without its newline, one character for each byte. `asked`:
 * the request with the number of an answer; without it an answer says less.
 * Any text is allowed.
 */
export function frameMeaning(text: string, direction: Direction, asked?: Pick<RequestLine, 'word' | 'args'>): Meaning {
  const line = text.length >= LINK.answerLine ? ({ kind: 'bad', reason: 'tooLong' } as const) : parseLine(text);
  switch (line.kind) {
    case 'bad':
      return { meaning: BAD[line.reason], sound: false };
    case 'request':
      return { meaning: astray(direction, 'toBoard', requestMeaning(line)), sound: true };
    case 'answer':
      return { meaning: astray(direction, 'fromBoard', answerMeaning(line, asked)), sound: true };
    case 'event':
      return { meaning: astray(direction, 'fromBoard', eventMeaning(line)), sound: true };
  }
}

/** A device that sends back what it gets is no board; that must not look like talk. */
export function astray(direction: Direction, rightly: Direction, meaning: string): string {
  return direction === rightly ? meaning : `An echo, not meant for this direction: ${meaning}`;
}

function requestMeaning({ word, args }: RequestLine): string {
  const text = requestText(word, args);
  return text === null ? `A request that this version does not know: ${[word, ...args].join(' ')}.` : `${text}.`;
}

function answerMeaning({ outcome }: AnswerLine, asked?: Pick<RequestLine, 'word' | 'args'>): string {
  if (!outcome.ok) {
    const { key, reason } = codeOf(outcome.code, outcome.reason);
    const code = key === 'unknown' ? `${reason} (code ${outcome.code})` : reason;
    return `Refused: ${code}${outcome.place === null ? '' : `, at byte ${outcome.place}`}.`;
  }
  const { fields } = outcome;
  // The greeting is frozen for ever and begins with its own name.
  const request = asked ?? (fields[0] === 'amberwick' ? { word: 'who', args: [] } : null);
  if (!request) return fields.length === 0 ? 'Done.' : `Answered: ${fields.join(' ')}.`;
  const text = answerText(fields, request.word, request.args);
  if (text.ok) return `${text.value}.`;
  const why = text.error.kind === 'misunderstood' ? text.error.what : text.error.reason;
  return `An answer to "${request.word}" that does not fit: ${why}.`;
}

function eventMeaning(line: EventLine): string {
  const parsed = parseEvent(line);
  if (!parsed.ok) {
    return `An event that this version does not know: ${[line.word, ...line.fields].join(' ')}.`;
  }
  const event = parsed.value;
  if (event.word === 'hello') {
    const flags = event.flags.size === 0 ? '' : ` Flags: ${flagsText(FLAGS, event.flags)}.`;
    return `The board started anew: ${event.cause}.${flags}`;
  }
  const at = secondsText(event.ms);
  switch (event.word) {
    case 'lamps':
      return `Lamps lit at ${at}: ${bitsText(event.lit)}.`;
    case 'row':
      return `Site ${event.site} entered row ${event.row} at ${at}.`;
    case 'demand':
      return `Input ${event.input} asked for its turn at ${at}.`;
    case 'fault': {
      if (event.fault === 'none') return `Site ${event.site} came back from its fault aspect by itself at ${at}.`;
      const reason = FAULTS.find(({ key }) => key === event.fault)?.reason ?? 'a fault that this version does not know';
      return `Site ${event.site} went to its fault aspect at ${at}: ${reason}.`;
    }
    case 'gap':
      return `Events were merged or lost before ${at}: the line was full.`;
    case 'guard': {
      const deed = DEEDS.find(({ key }) => key === event.deed)?.means ?? 'something that this version does not know';
      return `The guard of the board at ${at}: ${deed}.`;
    }
    case 'alone':
      return `The board heard no host until ${at}: overrides, holds, pauses and events have ended.`;
  }
}
