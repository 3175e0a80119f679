import { expect, test } from 'vitest';
import { Conflicts } from '../../electron/host/virtual/conflicts.ts';
import { loadImage } from '../../electron/host/virtual/images.ts';
import { rehearse } from '../../electron/host/virtual/rehearsal.ts';
import { loadGood } from '../../scripts/cli/load.ts';
import { encodeTable } from '../../shared/table/encode.ts';
import type { Chip } from '../../shared/table/format.ts';
import type { BoardTable } from '../../shared/table/model.ts';

function penmarrow(): BoardTable {
  const loaded = loadGood(new URL('../../shared/layout/examples/penmarrow.json', import.meta.url).pathname);
  const board = loaded.ok ? loaded.value.boards[0] : undefined;
  if (!board) throw new Error('Penmarrow does not load');
  return board.table;
}

function flashOf(chip: Chip): Uint8Array {
  const image = loadImage(chip);
  if (!image.ok) throw new Error(image.error);
  return image.flash;
}

function imageOf(table: BoardTable): Uint8Array {
  const { bytes, findings } = encodeTable(table);
  if (!bytes) throw new Error(JSON.stringify(findings));
  return bytes;
}

test('Penmarrow on the shipped image: every edge as planned, all within 1 ms, no drift', async () => {
  const table = penmarrow();
  const result = await rehearse({ flash: flashOf('atmega328p'), table, image: imageOf(table), ms: 100_000 });
  if (!result.ok) throw new Error(JSON.stringify(result.error));
  expect(result.rehearsal).toMatchObject({ wrong: 0, firstWrong: null, conflicts: 0 });
  expect(result.rehearsal.edges).toBeGreaterThan(300);
  expect(result.rehearsal.worst).toBeLessThan(1000);
  // A tick in which more changes takes longer; a schedule that slips by one tick in all would be 1,000.
  expect(Math.abs(result.rehearsal.drift)).toBeLessThan(300);
});

test('the same lamps on a chain of shift registers, output enable and all, on the ATmega2560', async () => {
  const plain = penmarrow();
  const lamps = plain.lamps.map((lamp, index) => ({ ...lamp, output: 128 + index, activeLow: index % 2 === 1 }));
  const chain = { chips: 2, data: 22, clock: 23, latch: 24, enable: 25 };
  const table: BoardTable = { ...plain, chip: 'atmega2560', lamps, chain };
  const result = await rehearse({ flash: flashOf('atmega2560'), table, image: imageOf(table), ms: 40_000 });
  if (!result.ok) throw new Error(JSON.stringify(result.error));
  expect(result.rehearsal).toMatchObject({ wrong: 0, firstWrong: null, conflicts: 0 });
  expect(result.rehearsal.edges).toBeGreaterThan(110);
});

test('an image that differs from the plan in one dial is found out', async () => {
  const table = penmarrow();
  const sites = table.sites.map((site, index) =>
    index === 0 ? { ...site, dials: site.dials.map((ms, dial) => (dial === 0 ? ms + 10 : ms)) } : site,
  );
  const image = imageOf({ ...table, sites });
  const result = await rehearse({ flash: flashOf('atmega328p'), table, image, ms: 30_000 });
  if (!result.ok) throw new Error(JSON.stringify(result.error));
  expect(result.rehearsal.wrong + (result.rehearsal.worst > 1000 ? 1 : 0)).toBeGreaterThan(0);
});

test('an image for another table is refused by the board, with its code', async () => {
  const table = penmarrow();
  const image = imageOf(table).slice();
  image[0] = 9;
  const result = await rehearse({ flash: flashOf('atmega328p'), table, image, ms: 1000 });
  expect(!result.ok && result.error).toMatchObject({ kind: 'refused', code: 20 });
});

test('conflicting lamps count when they are lit together for longer than outputs take to change', () => {
  const table = penmarrow();
  const [pair] = table.programs[0]?.conflicts ?? [];
  if (!pair) throw new Error('the first site has conflicting lamps');
  const conflicts = new Conflicts(table);
  const [a, b] = pair;
  conflicts.lamp(a, true, 0);
  conflicts.lamp(b, true, 1000);
  conflicts.lamp(a, false, 1800);
  expect(conflicts.seen).toBe(0);
  conflicts.lamp(a, true, 2000);
  conflicts.lamp(b, false, 2801);
  expect(conflicts.seen).toBe(1);
  conflicts.lamp(b, true, 5000);
  conflicts.finish(10_000);
  expect(conflicts.seen).toBe(2);
});
