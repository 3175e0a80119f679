/** What this computer does in its own time: the emulator, the compiler, the virtual board. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { LiveBoard } from '../../../electron/host/virtual/live.ts';
import { parseLayout } from '../../../shared/layout/parse.ts';
import type { Layout } from '../../../shared/layout/schema.ts';
import { compileLayout } from '../../../shared/signals/compile.ts';
import { encodeTable } from '../../../shared/table/encode.ts';
import type { BoardTable } from '../../../shared/table/model.ts';
import { CLUB, clubLayout, FULL_BOARD } from '../club.ts';
import { shippedFlash, storeWith } from '../rig.ts';
import type { Results } from './results.ts';

export function compiler(results: Results): void {
  const text = readFileSync(new URL('../../../shared/layout/examples/penmarrow.json', import.meta.url), 'utf8');
  const rounds = 200;
  const began = performance.now();
  for (let round = 0; round < rounds; round++) {
    const { layout } = parseLayout(text);
    const [board] = layout ? compileLayout(layout).boards : [];
    if (!board || !encodeTable(board.table).bytes) throw new Error('the example does not compile');
  }
  const each = (performance.now() - began) / rounds;
  results.clock('compile', 'read, compile, check and encode the example', each, 'ms');
  const full = quickest(clubLayout(FULL_BOARD), 100);
  results.clock('compile-full', 'compile, check and encode a full board (32 sites, 128 lamps)', full, 'ms');
  results.clock('compile-club', 'the same for a club (1,000 sites, 60 boards)', quickest(clubLayout(CLUB), 10), 'ms');
}

/** Of several rounds, as the first ones still warm up, ms. */
function quickest(layout: Layout, rounds: number): number {
  let best = Number.POSITIVE_INFINITY;
  for (let round = 0; round < rounds; round++) {
    const began = performance.now();
    const { boards } = compileLayout(layout);
    const isWhole = boards.length === layout.boards.length && boards.every(({ table: one }) => encodeTable(one).bytes);
    if (!isWhole) throw new Error('a board does not compile');
    best = Math.min(best, performance.now() - began);
  }
  return best;
}

/** What the virtual board costs in its thread while it runs the example at real time. */
export async function live(results: Results, table: BoardTable): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'amberwick-bench-'));
  const eepromFile = join(folder, 'board.eeprom');
  writeFileSync(eepromFile, storeWith(table));
  const board = new LiveBoard({ chip: table.chip, flash: shippedFlash(table.chip), eepromFile });
  let changes = 0;
  board.onLevels = (levels) => {
    changes += levels.length;
  };
  board.power(true);
  await pause(5000);
  const before = process.cpuUsage();
  const seconds = 20;
  await pause(1000 * seconds);
  const used = process.cpuUsage(before);
  await board.close();
  rmSync(folder, { recursive: true });
  if (changes === 0) throw new Error('no lamp changed');
  const share = (used.user + used.system) / (10_000 * seconds);
  results.clock('live', 'virtual board with the example at real time', share, '% of a core');
}
