/** The example from its file to its lamps: what stands at Market Cross at which second. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { Interpreter } from '../../shared/interpreter/interpreter.ts';
import { parseLayout } from '../../shared/layout/parse.ts';
import { compileLayout } from '../../shared/signals/compile.ts';
import { encodeTable } from '../../shared/table/encode.ts';

const TEXT = readFileSync(new URL('../../shared/layout/examples/penmarrow.json', import.meta.url), 'utf8');

function penmarrow() {
  const { layout, findings } = parseLayout(TEXT);
  if (layout === null) throw new Error('the example cannot be read');
  const compiled = compileLayout(layout);
  const board = compiled.boards[0];
  if (board === undefined) throw new Error('the example does not compile');
  return { layout, board, findings: [...findings, ...compiled.findings] };
}

describe('Penmarrow', () => {
  it('has nothing to find fault with, and fits the smallest chip with room to grow', () => {
    const { board, findings } = penmarrow();
    expect(findings).toEqual([]);
    const image = encodeTable(board.table);
    expect(image.findings).toEqual([]);
    expect(image.bytes).not.toBeNull();
    expect(image.free).toBeGreaterThan(240);
  });

  it('drives seven heads and two beacons with fourteen outputs, none of them D0, D1 or D13', () => {
    const { board, layout } = penmarrow();
    const heads = layout.sites.flatMap((site) => (site.kind === 'junction' ? (site.heads ?? []) : []));
    expect(heads).toHaveLength(7);
    expect(board.table.lamps.map((lamp) => lamp.output)).toEqual([2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 14, 15, 16]);
  });

  it('names every lamp, dial and row that the image only numbers', () => {
    const { board } = penmarrow();
    const [cross, corner, crossing] = board.sites;
    expect(cross?.lamps.map((lamp) => `${lamp.index} ${lamp.label} ${lamp.colour}`)).toEqual([
      '0 Fore Street red',
      '1 Fore Street amber',
      '2 Fore Street green',
      '3 Quay Hill red',
      '4 Quay Hill amber',
      '5 Quay Hill green',
    ]);
    expect(corner?.dials.map(({ id, name }) => ({ id, name }))).toEqual([
      { id: 'green-1', name: 'Green, Fore Street' },
      { id: 'green-2', name: 'Green, Chapel Lane' },
      { id: 'amber', name: 'Amber' },
      { id: 'red-with-amber', name: 'Red with amber' },
    ]);
    expect(cross?.rows.map((row) => row.label)).toEqual([
      'Fore Street green',
      'Fore Street amber',
      'All red',
      'Quay Hill red with amber',
      'Quay Hill green',
      'Quay Hill amber',
      'All red',
      'Fore Street red with amber',
    ]);
    expect(crossing?.lamps.map((lamp) => lamp.index)).toEqual([12, 13]);
  });

  it('gives Market Cross and Chapel Corner different greens', () => {
    const { board } = penmarrow();
    expect(board.table.sites.map((site) => site.dials)).toEqual([
      [18000, 12000, 3000, 1000, 2000],
      [25000, 9000, 3000, 2000],
      [750, 750],
    ]);
  });

  it('runs as planned in the reference interpreter', () => {
    const { board } = penmarrow();
    const lamps = ['R', 'A', 'G', 'r', 'a', 'g'];
    const seen: string[] = [];
    const interpreter: Interpreter = new Interpreter(board.table, {
      lamps: (ms, lit) => {
        const show = lamps.filter((_, index) => lit[index]).join('');
        if (seen.at(-1)?.split(' ')[1] !== show) seen.push(`${ms} ${show}`);
      },
    });
    interpreter.start(0);
    interpreter.run(43000);
    // The first row begins at 0 and is shown from the first tick on.
    expect(seen).toEqual([
      '1 Gr',
      '18000 Ar',
      '21000 Rr',
      '22000 Rra',
      '24000 Rg',
      '36000 Ra',
      '39000 Rr',
      '40000 RAr',
      '42000 Gr',
    ]);
  });
});
