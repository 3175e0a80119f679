import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { encodeEvent, encodeNo, encodeOk, encodeRequest, parseLine } from '../../shared/link/line.ts';

const document = readFileSync(new URL('../../firmware/PROTOCOL.md', import.meta.url), 'utf8');
const examples = (document.match(/^ {4}[?=!][0-9A-F]{2} .*$/gm) ?? []).map((line) => line.trim());

describe('the lines printed in the protocol document', () => {
  it('are four, with right CRCs', () => {
    expect(examples.map((line) => parseLine(line))).toEqual([
      { kind: 'request', sequence: 7, word: 'dial', args: ['2', '0', '18000'] },
      { kind: 'answer', sequence: 7, outcome: { ok: true, fields: ['18000'] } },
      { kind: 'request', sequence: 8, word: 'dial', args: ['2', '0', '1000'] },
      { kind: 'answer', sequence: 8, outcome: { ok: false, code: 4, place: null, reason: 'outside limits' } },
    ]);
  });

  it('are what the encoder writes', () => {
    expect([
      encodeRequest(7, 'dial', [2, 0, 18_000]),
      encodeOk(7, [18_000]),
      encodeRequest(8, 'dial', [2, 0, 1000]),
      encodeNo(8, 4),
    ]).toEqual(examples.map((line) => `${line}\n`));
  });
});

describe('a line', () => {
  it('with any one character changed is not taken for another', () => {
    const line = encodeRequest(0x2a, 'hold', [3, 1]).trimEnd();
    fc.assert(
      fc.property(fc.nat(line.length - 1), fc.integer({ min: 0x20, max: 0x7e }), (at, code) => {
        const other = String.fromCharCode(code);
        fc.pre(other !== line[at]);
        const parsed = parseLine(line.slice(0, at) + other + line.slice(at + 1));
        expect(parsed.kind).toBe('bad');
      }),
    );
  });

  it('says why it is dropped', () => {
    expect(parseLine('?07 dial 2 0 18000 CB74')).toEqual({ kind: 'bad', reason: 'crc' });
    expect(parseLine('?07 dial 2 0 18000 cb73')).toEqual({ kind: 'bad', reason: 'form' });
    expect(parseLine('?07 dial\t2 0 18000 CB73')).toEqual({ kind: 'bad', reason: 'notPrintable' });
    expect(parseLine('')).toEqual({ kind: 'bad', reason: 'form' });
  });

  it('whose CRC is right but whose fields are not is dropped too', () => {
    for (const line of [
      encodeRequest(1, '', ['x']),
      encodeRequest(1, 'dial', ['', '2']),
      encodeOk(1).replace('=01 ok', '=01 so'),
    ]) {
      expect(parseLine(line.trimEnd()).kind).toBe('bad');
    }
  });

  it('comes back as it was written, whatever its fields', () => {
    const field = fc.stringMatching(/^[!-~]{1,8}$/);
    fc.assert(
      fc.property(fc.nat(255), field, fc.array(field, { maxLength: 6 }), (number, word, fields) => {
        const request = parseLine(encodeRequest(number, word, fields).trimEnd());
        expect(request).toEqual({ kind: 'request', sequence: number, word, args: fields });
        const event = parseLine(encodeEvent(number, word, fields).trimEnd());
        expect(event).toEqual({ kind: 'event', number, word, fields });
        const answer = parseLine(encodeOk(number, fields).trimEnd());
        expect(answer).toEqual({ kind: 'answer', sequence: number, outcome: { ok: true, fields } });
      }),
    );
  });

  it('never makes the parser throw', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 60 }), (text) => {
        expect(['request', 'answer', 'event', 'bad']).toContain(parseLine(text).kind);
      }),
    );
  });
});
