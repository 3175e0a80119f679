/**
 * `npm run bench`: what the spine costs, measured now and here. Board figures
 * are in emulated cycles and the same on every computer; the others are not.
 * Results are printed and written to build/bench.json.
 */
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { cpus, tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { LiveBoard } from '../../electron/host/virtual/live.ts';
import { parseLayout } from '../../shared/layout/parse.ts';
import type { Layout } from '../../shared/layout/schema.ts';
import { compileLayout } from '../../shared/signals/compile.ts';
import { encodeTable } from '../../shared/table/encode.ts';
import { imageCrc } from '../../shared/table/shape.ts';
import { CLUB, clubLayout, FULL_BOARD } from './club.ts';
import { penmarrowBoard, withoutSweep } from './example.ts';
import { measure } from './measure.ts';
import { PENMARROW } from './penmarrow.ts';
import { CYCLES_PER_MS, imageOf, Rig, shippedFlash, storeWith } from './rig.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const table = withoutSweep(penmarrowBoard().table);
const results: { readonly what: string; readonly value: number; readonly unit: string }[] = [];

function note(what: string, value: number, unit: string): void {
  results.push({ what, value: Number(value.toPrecision(4)), unit });
  console.log(`${what.padEnd(66)} ${String(Number(value.toPrecision(4))).padStart(10)} ${unit}`);
}

edges();
latency();
sizes();
compiler();
await live();

mkdirSync(`${root}build`, { recursive: true });
const computer = { cpu: cpus()[0]?.model ?? '', node: process.version };
writeFileSync(
  `${root}build/bench.json`,
  `${JSON.stringify({ at: new Date().toISOString(), computer, results }, null, 2)}\n`,
);

/** The example for ten emulated minutes at full speed. */
function edges(): void {
  const rig = new Rig(table);
  rig.board.power(true);
  const began = performance.now();
  rig.runMs(600_000);
  const took = performance.now() - began;
  const measured = rig.takeEdges();
  const result = measure(measured, PENMARROW, measured[0]?.cycles ?? 0);
  if (result.wrong) throw new Error(result.wrong);
  note('emulator, the example as fast as it goes', 600_000 / took, 'times real');
  note('lamp edges, worst distance from the paper schedule', result.worstMicroseconds, 'µs');
  note('lamp edges of one interval, greatest distance', result.apartMicroseconds, 'µs');
  note('lamp edges, last tenth against first tenth', result.driftMicroseconds, 'µs');
}

/** From the last byte of a nudge to the lamp edge, over many moments. */
function latency(): void {
  const rig = new Rig(table);
  rig.board.power(true);
  rig.runMs(200);
  let worst = 0;
  for (let count = 0; count < 40; count++) {
    rig.ask('dial', 0, 0, 60_000);
    rig.ask('again', 0);
    rig.runMs(8000 + 37 * count);
    rig.takeEdges();
    rig.ask('dial', 0, 0, 7000);
    rig.runMs(30);
    const edge = rig.takeEdges().find(({ lamp, lit }) => lamp === 2 && !lit);
    if (!edge) throw new Error('the nudge had no effect');
    worst = Math.max(worst, (edge.cycles - rig.lastByteIn) / CYCLES_PER_MS);
  }
  note('nudge, last byte of its line to the lamp, worst of 40', worst, 'ms');
}

/** Upload and keep in board time, and what the firmware takes. */
function sizes(): void {
  const image = imageOf(table);
  const rig = new Rig(table, null);
  rig.board.power(true);
  rig.runMs(500);
  const began = rig.board.cycles;
  rig.ask('begin', image.length, imageCrc(image).toString(16).toUpperCase().padStart(4, '0'));
  for (let offset = 0; offset < image.length; offset += 16) {
    rig.ask(
      'part',
      offset,
      Buffer.from(image.subarray(offset, offset + 16))
        .toString('hex')
        .toUpperCase(),
    );
  }
  rig.ask('start');
  const sent = rig.board.cycles;
  rig.ask('keep');
  note(`upload of the example (${image.length} bytes) into an empty slot`, (sent - began) / CYCLES_PER_MS, 'ms');
  note('keep after it', (rig.board.cycles - sent) / CYCLES_PER_MS, 'ms');
  const manifest = JSON.parse(readFileSync(`${root}firmware/images/manifest.json`, 'utf8'));
  for (const [chip, { flash, ram }] of Object.entries<{ flash: number; ram: number }>(manifest.chips)) {
    note(`flash, ${chip}`, flash, 'bytes');
    note(`static RAM, ${chip}`, ram, 'bytes');
  }
  const state = rig.ask('state').split(' ');
  note('stack never used after upload and keep, atmega328p', Number(state[4]), 'bytes');
}

function compiler(): void {
  const text = readFileSync(`${root}shared/layout/examples/penmarrow.json`, 'utf8');
  const rounds = 200;
  const began = performance.now();
  for (let round = 0; round < rounds; round++) {
    const { layout } = parseLayout(text);
    const [board] = layout ? compileLayout(layout).boards : [];
    if (!board || !encodeTable(board.table).bytes) throw new Error('the example does not compile');
  }
  note('read, compile, check and encode the example', (performance.now() - began) / rounds, 'ms');
  const full = clubLayout(FULL_BOARD);
  note('compile, check and encode a full board (32 sites, 128 lamps)', quickest(full, 100), 'ms');
  note('the same for a club (1,000 sites, 60 boards)', quickest(clubLayout(CLUB), 10), 'ms');
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
async function live(): Promise<void> {
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
  note('virtual board with the example at real time', (used.user + used.system) / (10_000 * seconds), '% of a core');
}
