import { expect, test } from 'vitest';
import { loadGood } from '../../scripts/cli/load.ts';
import { identifier, VcdWriter } from '../../scripts/cli/vcd.ts';
import { example } from './typed.ts';

test('codes of wires are printable and all different', () => {
  const codes = Array.from({ length: 128 }, (_, index) => identifier(index));
  expect(new Set(codes).size).toBe(128);
  expect(codes.slice(0, 3)).toEqual(['!', '"', '#']);
  expect(codes.slice(93, 96)).toEqual(['~', '!!', '!"']);
  expect(codes.every((code) => /^[!-~]+$/.test(code))).toBe(true);
});

test('one cycle of 16 MHz is 625 units of 100 ps; edges of one moment share a time', () => {
  const loaded = loadGood(example('penmarrow'));
  const board = loaded.ok ? loaded.value.boards[0] : undefined;
  if (!board) throw new Error('Penmarrow does not load');
  let text = '';
  const writer = new VcdWriter(board, (piece) => {
    text += piece;
  });
  writer.edge(0, true, 16_000);
  writer.edge(4, true, 16_000);
  writer.edge(0, false, 16_001);
  writer.end(32_000);
  const [head = '', body = ''] = text.split('$dumpvars');
  expect(head).toContain('$timescale 100 ps $end');
  expect(head.match(/\$var wire 1 /g)?.length).toBe(14);
  expect(head.match(/\$scope/g)?.length).toBe(head.match(/\$upscope/g)?.length);
  expect(head).toContain('$var wire 1 " Fore_Street_amber $end');
  expect(body.split('$end\n')[1]).toBe('#10000000\n1!\n1%\n#10000625\n0!\n#20000000\n');
});
