import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { encodeEvent, encodeOk } from '../../shared/link/line.ts';
import { LineReader } from '../../shared/link/reader.ts';
import { LINK } from '../../shared/link/vocabulary.ts';

const bytes = (text: string) => new TextEncoder().encode(text);
const stream = encodeOk(1, [18_000]) + encodeEvent(2, 'row', [1000, 0, 3]) + encodeOk(3);
const lines = [
  { kind: 'answer', sequence: 1, outcome: { ok: true, fields: ['18000'] } },
  { kind: 'event', number: 2, word: 'row', fields: ['1000', '0', '3'] },
  { kind: 'answer', sequence: 3, outcome: { ok: true, fields: [] } },
];

describe('a stream of lines', () => {
  it('gives the same lines however it is cut', () => {
    fc.assert(
      fc.property(fc.array(fc.nat(stream.length), { maxLength: 8 }), (cuts) => {
        const reader = new LineReader();
        const edges = [0, ...cuts.sort((a, b) => a - b), stream.length];
        const read = edges.slice(1).flatMap((end, index) => reader.push(bytes(stream.slice(edges[index], end))));
        expect(read).toEqual(lines);
        expect(reader.dropped).toBe(0);
      }),
    );
  });

  it('may end its lines with carriage return and newline, and have empty ones', () => {
    const reader = new LineReader();
    expect(reader.push(bytes(`\r\n\n${stream.replaceAll('\n', '\r\n')}`))).toEqual(lines);
    expect(reader.dropped).toBe(0);
  });

  it('recovers within one line from any noise that ends with a newline', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 400 }), (noise) => {
        const reader = new LineReader();
        reader.push(noise);
        reader.push([0x0a]);
        expect(reader.push(bytes(stream))).toEqual(lines);
      }),
    );
  });

  it('loses only the line that noise runs into', () => {
    const reader = new LineReader();
    expect(reader.push(bytes(`xyz${stream}`))).toEqual([{ kind: 'bad', reason: 'crc' }, ...lines.slice(1)]);
    expect(reader.dropped).toBe(1);
  });
});

describe('a line that is too long', () => {
  it('is dropped as one, with the next read as usual', () => {
    const reader = new LineReader();
    expect(reader.push(bytes(`${'x'.repeat(1_000_000)}\n${encodeOk(3)}`))).toEqual([
      { kind: 'bad', reason: 'tooLong' },
      lines[2],
    ]);
    expect(reader.dropped).toBe(1);
  });

  it('begins one character after the limit, newline counted', () => {
    const longest = encodeOk(9, ['f'.repeat(LINK.answerLine - '=09 ok  CRC4\n'.length)]);
    expect(longest).toHaveLength(LINK.answerLine);
    expect(new LineReader().push(bytes(longest))[0]?.kind).toBe('answer');
    const longer = encodeOk(9, ['f'.repeat(LINK.answerLine - '=09 ok  CRC4\n'.length + 1)]);
    expect(new LineReader().push(bytes(longer))).toEqual([{ kind: 'bad', reason: 'tooLong' }]);
  });
});

it('a half line is forgotten when the port closes', () => {
  const reader = new LineReader();
  reader.push(bytes('=01 ok 180'));
  reader.reset();
  expect(reader.push(bytes(stream))).toEqual(lines);
});
