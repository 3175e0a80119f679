/** Single lines of the protocol: text to meaning and back (firmware/PROTOCOL.md, chapter 1). */
import { crc16 } from '../table/crc.ts';
import { codeOf } from './codes.ts';

/** Why a line is dropped. */
export type BadLine = 'crc' | 'tooLong' | 'notPrintable' | 'form';

export interface RequestLine {
  readonly kind: 'request';
  /** 0..255. */
  readonly sequence: number;
  readonly word: string;
  readonly args: readonly string[];
}

export interface AnswerLine {
  readonly kind: 'answer';
  readonly sequence: number;
  readonly outcome:
    | { readonly ok: true; readonly fields: readonly string[] }
    | { readonly ok: false; readonly code: number; readonly place: number | null; readonly reason: string };
}

export interface EventLine {
  readonly kind: 'event';
  /** Count of events, modulo 256. */
  readonly number: number;
  readonly word: string;
  readonly fields: readonly string[];
}

export type Line = RequestLine | AnswerLine | EventLine | { readonly kind: 'bad'; readonly reason: BadLine };

const encoder = new TextEncoder();

function hex(value: number, digits: number): string {
  return value.toString(16).toUpperCase().padStart(digits, '0');
}

/** Puts the CRC and the newline behind the fields. */
function seal(fields: readonly (string | number)[]): string {
  const text = fields.join(' ');
  return `${text} ${hex(crc16(encoder.encode(text)), 4)}\n`;
}

/** A request line, newline included. `sequence` 0..255. */
export function encodeRequest(sequence: number, word: string, args: readonly (string | number)[] = []): string {
  return seal([`?${hex(sequence & 0xff, 2)}`, word, ...args]);
}

export function encodeOk(sequence: number, fields: readonly (string | number)[] = []): string {
  return seal([`=${hex(sequence & 0xff, 2)}`, 'ok', ...fields]);
}

/** A refusal; `place` is a byte offset in the image, or null. */
export function encodeNo(sequence: number, code: number, place: number | null = null): string {
  return seal([`=${hex(sequence & 0xff, 2)}`, 'no', code, place ?? '-', codeOf(code).reason]);
}

export function encodeEvent(number: number, word: string, fields: readonly (string | number)[] = []): string {
  return seal([`!${hex(number & 0xff, 2)}`, word, ...fields]);
}

const bad = (reason: BadLine): Line => ({ kind: 'bad', reason });

/** Understands one line without its newline; any text is allowed. */
export function parseLine(text: string): Line {
  if (!/^[\x20-\x7e]*$/.test(text)) return bad('notPrintable');
  const sealed = /^(.*) ([0-9A-F]{4})$/.exec(text);
  if (!sealed) return bad('form');
  const [, body = '', crc = ''] = sealed;
  if (crc16(encoder.encode(body)) !== Number.parseInt(crc, 16)) return bad('crc');
  const [head = '', word = '', ...rest] = body.split(' ');
  const numbered = /^([?=!])([0-9A-F]{2})$/.exec(head);
  if (!numbered || word === '' || rest.includes('')) return bad('form');
  const number = Number.parseInt(numbered[2] ?? '', 16);
  switch (numbered[1]) {
    case '?':
      return { kind: 'request', sequence: number, word, args: rest };
    case '!':
      return { kind: 'event', number, word, fields: rest };
    default:
      return parseAnswer(number, word, rest);
  }
}

function parseAnswer(sequence: number, word: string, rest: readonly string[]): Line {
  if (word === 'ok') return { kind: 'answer', sequence, outcome: { ok: true, fields: rest } };
  const [code = '', place = '', ...reason] = rest;
  if (word !== 'no' || !/^\d{1,5}$/.test(code) || !/^(-|\d{1,5})$/.test(place)) return bad('form');
  const outcome = {
    ok: false,
    code: Number(code),
    place: place === '-' ? null : Number(place),
    reason: reason.join(' '),
  } as const;
  return { kind: 'answer', sequence, outcome };
}
