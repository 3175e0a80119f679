import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { parseLayout } from '../../shared/layout/parse.ts';
import type { Layout } from '../../shared/layout/schema.ts';
import { writeLayout } from '../../shared/layout/write.ts';
import { compileLayout } from '../../shared/signals/compile.ts';
import { takeTimes } from '../../shared/signals/take/take.ts';
import { encodeTable } from '../../shared/table/encode.ts';
import { imageShape } from '../../shared/table/shape.ts';
import { imageStructure } from '../../shared/table/structure.ts';
import { oneOfEach } from '../panel/one-of-each.ts';

const PENMARROW = read(readFileSync(new URL('../../shared/layout/examples/penmarrow.json', import.meta.url), 'utf8'));

function read(text: string): Layout {
  const { layout } = parseLayout(text);
  if (!layout) throw new Error('no layout');
  return layout;
}

function dial(layout: Layout, site: number, id: string) {
  const board = compileLayout(layout).boards[0];
  const at = board?.sites[site]?.dials.findIndex((it) => it.id === id) ?? -1;
  const program = board?.table.programs[board.table.sites[site]?.program ?? -1];
  return { ...board?.sites[site]?.dials[at], ...program?.dials[at], value: board?.table.sites[site]?.dials[at] };
}

function limited(layout: Layout, site: number, limits: NonNullable<Layout['sites'][number]['limits']>): Layout {
  return { ...layout, sites: layout.sites.map((it, at) => (at === site ? { ...it, limits } : it)) };
}

function codes(layout: Layout): string[] {
  return compileLayout(layout).findings.map(({ code }) => code);
}

function image(layout: Layout): Uint8Array {
  const board = compileLayout(layout).boards[0];
  const encoded = board && encodeTable(board.table);
  if (!encoded?.bytes) throw new Error('no image');
  return encoded.bytes;
}

test('limits of the owner reach the table, with their reason and what they were', () => {
  const layout = limited(PENMARROW, 0, { 'green-1': { greatest: 300, reason: 'A goods train crosses' } });
  expect(dial(layout, 0, 'green-1')).toMatchObject({
    max: 300_000,
    value: 18_000,
    owner: { max: 255_000, reason: 'A goods train crosses' },
    rule: { name: 'Green' },
  });
  expect(codes(layout)).toEqual(codes(PENMARROW));
  expect(read(writeLayout(layout))).toEqual(layout);
});

test('no owner shortens what keeps one green clear of the next, nor a minimum green', () => {
  const before = dial(PENMARROW, 0, 'amber');
  for (const id of ['amber', 'red-with-amber', 'all-red', 'green-1']) {
    const was = dial(PENMARROW, 0, id);
    const layout = limited(PENMARROW, 0, { [id]: { least: 0.1, reason: 'Quicker to watch' } });
    expect(dial(layout, 0, id).min, id).toBe(was.min);
    expect(codes(layout)).toContain('limit-not-taken');
  }
  expect(before.min).toBe(3000);
});

test('limits that cannot be are told and left as they were: not there, beyond the board, beside the plan', () => {
  expect(codes(limited(PENMARROW, 0, { 'green-9': { greatest: 20, reason: 'x' } }))).toContain('not-used');
  const flash = limited(PENMARROW, 2, { 'flash-on': { least: 0, greatest: 90, reason: 'A slow beacon' } });
  expect(dial(flash, 2, 'flash-on')).toMatchObject({ min: 10, max: 30_000 });
  expect(codes(flash).filter((code) => code === 'limit-not-taken')).toHaveLength(2);
  const beside = limited(PENMARROW, 0, { 'green-1': { greatest: 10, reason: 'x' } });
  expect(dial(beside, 0, 'green-1').max).toBe(18_000);
});

test('a reason is needed, and is a line of text', () => {
  const bare = writeLayout(limited(PENMARROW, 0, { 'green-1': { greatest: 300, reason: 'x' } })).replace('"x"', '" "');
  expect(parseLayout(bare).layout).toBe(null);
});

test('other limits alone leave the structure of an image as it is; another row does not', () => {
  const limits = image(limited(PENMARROW, 2, { 'flash-on': { greatest: 8, reason: 'x' } }));
  expect(imageShape(limits)).not.toBe(imageShape(image(PENMARROW)));
  expect(imageStructure(limits)).toBe(imageStructure(image(PENMARROW)));
  const [first, ...others] = PENMARROW.sites;
  if (first?.kind !== 'junction') throw new Error('no junction');
  const turned: Layout = { ...PENMARROW, sites: [{ ...first, stages: [...first.stages].reverse() }, ...others] };
  expect(imageStructure(image(turned))).not.toBe(imageStructure(image(PENMARROW)));
  expect(imageStructure(new Uint8Array([1, 2, 3]))).toBe(null);
});

function taken(layout: Layout, site: number, times: Readonly<Record<string, number>>) {
  const id = layout.sites[site]?.id ?? '';
  const result = takeTimes(
    layout,
    Object.entries(times).map(([at, ms]) => ({ site: id, dial: at, ms })),
  );
  return { ...result, left: result.left.map((it) => it.dial) };
}

test('greens, and the parts of a change with their intergreens, are taken into the plan to the hundredth', () => {
  const { layout, left } = taken(PENMARROW, 0, { 'green-1': 21_500, amber: 3500, 'all-red': 2250 });
  expect(left).toEqual([]);
  const site = layout.sites[0];
  if (site?.kind !== 'junction') throw new Error('no junction');
  expect(site.stages[0]?.green).toBe(21.5);
  expect(site.amber).toBe(3.5);
  // 6 s before: 3 amber, 1 all red, 2 red with amber.
  expect(site.intergreens).toEqual({ A: { B: 7.75 }, B: { A: 7.75 } });
  expect(dial(layout, 0, 'all-red').value).toBe(2250);
  expect(layout.sites[1]).toEqual(PENMARROW.sites[1]);
});

test('flash times of beacons are taken', () => {
  const { layout, left } = taken(PENMARROW, 2, { 'flash-on': 500 });
  expect(left).toEqual([]);
  expect(layout.sites[2]).toMatchObject({ on: 0.5 });
});

test('what the plan cannot hold is left, and said; the rest is taken', () => {
  const wide = limited(PENMARROW, 0, { 'green-1': { greatest: 300, reason: 'x' } });
  const result = takeTimes(wide, [
    { site: 'market-cross', dial: 'green-1', ms: 290_000 },
    { site: 'market-cross', dial: 'green-2', ms: 14_000 },
    { site: 'nowhere', dial: 'green-2', ms: 14_000 },
  ]);
  expect(result.taken.map((it) => it.dial)).toEqual(['green-2']);
  expect(result.left.map(({ site }) => site)).toEqual(['market-cross', 'nowhere']);
  expect(result.left[0]?.why).not.toBe('');
});

test('every time of every kind of site that can be turned is taken, exactly and alone', () => {
  const layout = oneOfEach();
  const left: string[] = [];
  let taken = 0;
  for (const board of compileLayout(layout).boards) {
    board.sites.forEach((site, at) => {
      const binding = board.table.sites[at];
      const program = binding && board.table.programs[binding.program];
      site.dials.forEach(({ id }, dial) => {
        const limits = program?.dials[dial];
        const now = binding?.dials[dial] ?? 0;
        if (!limits || limits.min === limits.max) return;
        const ms = now + 500 <= limits.max ? now + 500 : Math.max(limits.min, now - 500);
        const result = takeTimes(layout, [{ site: site.id, dial: id, ms }]);
        taken += result.taken.length;
        left.push(...result.left.map(() => `${layout.sites.find((it) => it.id === site.id)?.kind} ${id}`));
      });
    });
  }
  expect([...new Set(left)]).toEqual([]);
  expect(taken).toBeGreaterThan(50);
});
