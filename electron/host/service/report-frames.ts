/** The last lines between host and board for a report: decoded as they were, without what names or marks a board. */
import { parseEvent } from '../../../shared/link/events.ts';
import { toHex } from '../../../shared/link/fields.ts';
import { type AnswerLine, type EventLine, parseLine, type RequestLine } from '../../../shared/link/line.ts';
import { astray, frameMeaning } from '../../../shared/link/meaning.ts';
import { answerText, requestText } from '../../../shared/link/meaning-words.ts';
import { ask } from '../../../shared/link/requests.ts';
import { CAUSES, CODES, VERBS } from '../../../shared/link/vocabulary.ts';
import { CAPACITY } from '../../../shared/table/format.ts';
import type { Frame } from '../../../shared/workbench/contract.ts';
import { frameLine } from './frames.ts';
import { loaderAnswerMeaning, loaderRequestMeaning, NO_RESET, V1_INSYNC } from './loader-frames.ts';
import { LEFT_OUT, versionText } from './report-words.ts';

interface Shown {
  readonly text: string;
  readonly meaning: string;
}

/** Causes of an end that this program words itself. */
const ENDS = [
  'closed: The cable was pulled.',
  'closed: The port was closed.',
  'closed: The virtual board was closed.',
  'closed: The virtual board was switched off.',
  'closed: Opened a second time.',
];
/** What the recorder adds to a meaning. */
const REMARK = /( Sent again\.)?( \d+ beats, only the last is shown\.)?$/;

/** A line for each frame, oldest first. */
export function frameLines(frames: readonly Frame[]): string[] {
  const asked = new Map<number, RequestLine>();
  return frames.map((frame) => {
    const line = frame.sound ? parseLine(frame.text) : null;
    if (line?.kind === 'request' && frame.direction === 'toBoard') {
      if (requestText(line.word, line.args) === null) asked.delete(line.sequence);
      else asked.set(line.sequence, line);
    }
    return frameLine({ ...frame, ...shown(frame, line, asked) });
  });
}

function shown(frame: Frame, line: ReturnType<typeof parseLine> | null, asked: Map<number, RequestLine>): Shown {
  switch (line?.kind) {
    case undefined:
      return noise(frame.text);
    case 'request':
      return request(frame, line);
    case 'answer':
      return answer(frame, line, asked.get(line.sequence));
    case 'event':
      return event(frame, line);
    case 'bad':
      return message(frame);
  }
}

function request(frame: Frame, { word, args }: RequestLine): Shown {
  const head = frame.text.slice(0, 3);
  if (requestText(word, args) === null) {
    return { text: `${head} ${LEFT_OUT}`, meaning: 'A request that this version does not know.' };
  }
  if (word === 'label') {
    const meaning = astray(frame.direction, 'toBoard', 'Write identity and name, which are left out here.');
    return { text: `${head} label ${LEFT_OUT}`, meaning };
  }
  const text = word === 'part' ? withoutTable(frame.text) : frame.text;
  return {
    text,
    meaning: `${frameMeaning(frame.text, frame.direction).meaning}${REMARK.exec(frame.meaning)?.[0] ?? ''}`,
  };
}

function answer(frame: Frame, { outcome }: AnswerLine, asked: RequestLine | undefined): Shown {
  const head = frame.text.slice(0, 3);
  if (!outcome.ok) {
    const reason = CODES.find(({ code }) => code === outcome.code)?.reason;
    const text = `${head} no ${outcome.code} ${outcome.place ?? '-'} ${reason ?? LEFT_OUT}`;
    return { text, meaning: `Refused with code ${outcome.code}${reason ? `: ${reason}` : ''}.` };
  }
  const { fields } = outcome;
  if (asked?.word === 'who' || fields[0] === 'amberwick') return greeting(head, fields);
  if (fields.length === 0) return { text: frame.text, meaning: asked ? `Done: ${asked.word}.` : 'Done.' };
  const counted = `${head} ok [${fields.length} ${fields.length === 1 ? 'field' : 'fields'}]`;
  if (!asked) return { text: counted, meaning: 'An answer to an earlier request.' };
  const told = answerText(fields, asked.word, asked.args);
  // The only free word of an answer beside the greeting is the cause in that to `state`.
  const isOurs = asked.word !== 'state' || isCause(fields[1] ?? '');
  if (!told.ok || !isOurs) return { text: counted, meaning: `An answer to "${asked.word}" that does not fit.` };
  const text = asked.word === 'read' ? withoutTable(frame.text) : frame.text;
  return { text, meaning: `${told.value}.${REMARK.exec(frame.meaning)?.[0] ?? ''}` };
}

/** The answer to `who` carries the identity and the name of the board. */
function greeting(head: string, fields: readonly string[]): Shown {
  const who = ask.who().parse(fields);
  if (!who.ok) return { text: `${head} ok ${LEFT_OUT}`, meaning: 'A greeting that does not fit.' };
  const { protocol, firmware, store, chip, shape } = who.value;
  const chipText = Object.hasOwn(CAPACITY, chip) ? chip : LEFT_OUT;
  const table = shape === null ? '-' : fields[6];
  const version = versionText(firmware);
  return {
    text: `${head} ok amberwick ${protocol} ${version} ${store} ${chipText} ${LEFT_OUT} ${table} ${LEFT_OUT}`,
    meaning: `An Amberwick board: protocol ${protocol}, firmware ${version}, store ${store}, chip ${chipText}; identity and name are left out here.`,
  };
}

function event(frame: Frame, line: EventLine): Shown {
  const told = parseEvent(line);
  const isOurs = told.ok && (told.value.word !== 'hello' || isCause(told.value.cause));
  if (isOurs) return { text: frame.text, meaning: frameMeaning(frame.text, frame.direction).meaning };
  return { text: `${frame.text.slice(0, 3)} ${LEFT_OUT}`, meaning: 'An event that this version does not know.' };
}

/** Bytes that are no line: how many, and whether they are text or the remains of a line. */
function noise(text: string): Shown {
  const bytes = text.replace(/\\x[0-9A-F]{2}/g, '\0');
  const printable = bytes.replaceAll('\0', '').length;
  const [head, word] = /^([?=!][0-9A-F]{2}) (\w+)/.exec(text)?.slice(1) ?? [];
  const isOurs = word !== undefined && (word === 'ok' || word === 'no' || VERBS.some((verb) => verb.word === word));
  return {
    text: `[${bytes.length} bytes, ${printable} of them printable]`,
    meaning: isOurs ? `Noise: a damaged line that begins with "${head} ${word}".` : 'Noise.',
  };
}

/** Opening, end, and messages of a boot loader: sound, but no lines of the protocol. */
function message({ direction, text, meaning }: Frame): Shown {
  if (/^opened( at \d{1,7} baud)?$/.test(text)) return { text, meaning: 'The port was opened.' };
  if (text === 'reset') return { text, meaning: meaning === NO_RESET ? meaning : 'Reset the board.' };
  if (text.startsWith('closed: ')) {
    return { text: ENDS.includes(text) ? text : `closed: ${LEFT_OUT}`, meaning: 'The connection ended.' };
  }
  const hex = /^((?:[0-9A-F]{2} )*[0-9A-F]{2})(?: \.\.\. ([0-9A-F]{2}) \((\d{1,5}) bytes\))?$/.exec(text);
  if (!hex) return { text: LEFT_OUT, meaning: 'Left out.' };
  const [, begin = '', last, total] = hex;
  const bytes = Uint8Array.from(begin.split(' '), (byte) => Number.parseInt(byte, 16));
  const whole = new Uint8Array(total === undefined ? bytes.length : Number(total));
  whole.set(bytes.subarray(0, whole.length));
  if (last !== undefined) whole[whole.length - 1] = Number.parseInt(last, 16);
  const said = direction === 'toBoard' ? loaderRequestMeaning(whole) : loaderAnswerMeaning(whole);
  return { text: loaderText(whole, said, direction), meaning: said };
}

/** The begin of a message; of an answer no more than a signature, for a program that runs there may say anything. */
function loaderText(bytes: Uint8Array, said: string, direction: Frame['direction']): string {
  const isKnown = !/^(To|From) the boot loader/.test(said);
  const most = direction === 'toBoard' ? 6 : 5;
  if (!isKnown || (bytes[0] === V1_INSYNC && bytes.length > most)) return `[${bytes.length} bytes]`;
  const shown = toHex(bytes.subarray(0, most)).replace(/(..)(?=.)/g, '$1 ');
  return bytes.length > most ? `${shown} ... (${bytes.length} bytes)` : shown;
}

/** Of the bytes of a table only the count is shown. */
function withoutTable(text: string): string {
  return text.replace(/ ([0-9A-F]{2,}) ([0-9A-F]{4})$/, (_, hex: string) => ` [${hex.length / 2} bytes]`);
}

function isCause(word: string): boolean {
  return CAUSES.some((cause) => cause === word);
}
