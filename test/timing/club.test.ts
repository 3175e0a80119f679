import { expect, it } from 'vitest';
import { compileLayout } from '../../shared/signals/compile.ts';
import { encodeTable } from '../../shared/table/encode.ts';
import { CLUB, clubLayout, FULL_BOARD } from './club.ts';

it('a full board and a club layout compile, and each board takes its table', () => {
  for (const [sites, boards, lamps] of [
    [FULL_BOARD, 1, 128],
    [CLUB, 60, 17 * 2 + 9 * 4],
  ] as const) {
    const compiled = compileLayout(clubLayout(sites));
    expect(compiled.findings.filter(({ severity }) => severity === 'error')).toEqual([]);
    expect(compiled.boards).toHaveLength(boards);
    expect(compiled.boards[0]?.table.lamps).toHaveLength(lamps);
    for (const { table } of compiled.boards) expect(encodeTable(table).bytes).not.toBeNull();
  }
  expect(CLUB.reduce((sum, count) => sum + count, 0)).toBe(1000);
});
