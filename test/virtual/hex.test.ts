import { expect, test } from 'vitest';
import { parseHex } from '../../electron/host/virtual/hex.ts';

const END = ':00000001FF\n';

test('data lands at its address and the rest is FF', () => {
  const result = parseHex(`:0400020001020304F0\r\n${END}`, 16);
  expect(result).toEqual({
    ok: true,
    bytes: Uint8Array.of(0xff, 0xff, 1, 2, 3, 4, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff),
  });
});

test('upper addresses reach beyond 64 KB', () => {
  const result = parseHex(`:020000040001F9\n:01000000AA55\n${END}`, 0x20000);
  expect(result.ok && result.bytes[0x10000]).toBe(0xaa);
});

test.each([
  [':0400020001020304F1\n', 'line 1: checksum wrong'],
  [':04000200010203\n', 'line 1: record length wrong'],
  ['hello\n', 'line 1: not an Intel HEX record'],
  [':0400100001020304E2\n', 'line 1: beyond the flash of the chip'],
  [`${END}:00000001FF\n`, 'line 2: data after the end record'],
  [':0100000000FF\n', 'the end record is missing'],
  [':0000000Ff1\n', 'line 1: unknown record type 15'],
])('%j is refused: %s', (text, error) => {
  const whole = text.includes('missing') || error.includes('missing') ? text : text + (text.startsWith(END) ? '' : END);
  expect(parseHex(whole, 16)).toEqual({ ok: false, error });
});
