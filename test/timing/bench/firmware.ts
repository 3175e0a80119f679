/** What the shipped firmware takes and does with a table: memory, cycles, upload, nudge, self-check. */
import { readFileSync } from 'node:fs';
import { BoardSession } from '../../../electron/host/session.ts';
import { upload } from '../../../electron/host/upload.ts';
import { VirtualBoard } from '../../../electron/host/virtual/board.ts';
import { DirectLine } from '../../../electron/host/virtual/direct.ts';
import { encodeRequest } from '../../../shared/link/line.ts';
import { ask } from '../../../shared/link/requests.ts';
import { BAUD } from '../../../shared/link/vocabulary.ts';
import type { BoardTable } from '../../../shared/table/model.ts';
import type { PaperSite } from '../ideal.ts';
import { CYCLES_PER_MS, imageOf, Rig, shippedFlash } from '../rig.ts';
import { CycleMeter } from './cycles.ts';
import { errorsOf, worstOf } from './edge-errors.ts';
import type { Results } from './results.ts';

/** One operation of the EEPROM, erasing or writing a byte, ms (the emulator's: half of 3.4 ms). */
const OPERATION_MS = 1.7;
const BITS_PER_BYTE = 10;

export function memory(results: Results): void {
  const manifest = JSON.parse(readFileSync(new URL('../../../firmware/images/manifest.json', import.meta.url), 'utf8'));
  for (const [chip, { flash, ram }] of Object.entries<{ flash: number; ram: number }>(manifest.chips)) {
    results.note(`flash-${chip}`, `flash, ${chip}`, flash, 'bytes');
    results.note(`ram-${chip}`, `static RAM, ${chip}`, ram, 'bytes');
  }
}

/** Where the cycles go while a table runs: alone, and while a host listens and asks for a nudge all the time. */
export function load(
  results: Results,
  key: string,
  what: string,
  table: BoardTable,
  paper: readonly PaperSite[],
  ms: number,
): void {
  for (const asks of [false, true]) {
    const rig = new Rig(table);
    rig.board.power(true);
    rig.runMs(300);
    if (asks) rig.ask('tell', 1);
    const meter = new CycleMeter(rig.board);
    let asked = 0;
    for (const until = rig.board.cycles + ms * CYCLES_PER_MS; rig.board.cycles < until; ) {
      // A line of 23 characters, and its answer.
      if (asks) rig.board.write(new TextEncoder().encode(encodeRequest(asked++ & 0xff, 'dial', [0, 0, 18_000])));
      meter.run(10 * CYCLES_PER_MS);
    }
    const worst = worstOf(errorsOf(rig.takeEdges(), paper));
    if (worst.wrong) throw new Error(`${what}: ${worst.wrong}`);
    const use = meter.result();
    const [name, host] = asks ? [`${key}-asked`, ', asked 100 times a second'] : [key, ''];
    results.note(`edge-${name}`, `worst edge against paper, ${what}${host}`, 1000 * worst.worstMs, 'µs');
    results.note(`interrupts-${name}`, `interrupts, ${what}${host}`, 100 * use.interruptShare, '% of all cycles');
    results.note(`awake-${name}`, `awake, ${what}${host}`, 100 * use.awakeShare, '% of all cycles');
    results.note(`loop-${name}`, `one time awake, mean, ${what}${host}`, use.meanAwakeMicroseconds, 'µs');
    results.note(`loop-worst-${name}`, `one time awake, worst, ${what}${host}`, use.worstAwakeMicroseconds, 'µs');
    results.note(`stack-${name}`, `stack, ${what}${host}`, use.stackBytes, 'bytes');
  }
}

/** Sends a table as the app does, into an empty board, and keeps it; then asks how much stack was never used. */
export async function uploading(results: Results, key: string, what: string, table: BoardTable): Promise<void> {
  const board = new VirtualBoard({ chip: table.chip, flash: shippedFlash(table.chip) });
  board.connectChain(table.chain);
  board.power(true);
  board.run(500 * CYCLES_PER_MS);
  const line = new DirectLine(board);
  let bytes = 0;
  const write = line.write.bind(line);
  line.write = (sent) => {
    bytes += sent.length;
    write(sent);
  };
  const session = new BoardSession(line, { clock: line });
  const greeted = await line.until(session.greet());
  if (!greeted.ok) throw new Error('the board does not greet');
  const image = imageOf(table);
  [bytes, board.eeprom.operations] = [0, 0];
  const began = board.milliseconds;
  const sent = await line.until(upload(session, image));
  if (!sent.ok) throw new Error(JSON.stringify(sent.error));
  const took = board.milliseconds - began;
  results.note(`upload-${key}`, `upload of ${what} (${image.length} bytes) into an empty slot`, took, 'ms');
  const share = (part: number) => (100 * part) / took;
  const lineMs = (bytes * BITS_PER_BYTE * 1000) / BAUD;
  const payloadMs = (image.length * BITS_PER_BYTE * 1000) / BAUD;
  results.note(`upload-rate-${key}`, 'throughput', (1000 * image.length) / took, 'bytes a second');
  results.note(`upload-payload-${key}`, 'the same as a share of what the line could carry', share(payloadMs), '%');
  results.note(`upload-line-${key}`, 'share of the time in which the line to the board is busy', share(lineMs), '%');
  const eepromMs = board.eeprom.operations * OPERATION_MS;
  results.note(`upload-eeprom-${key}`, 'share of the time in which the EEPROM is busy', share(eepromMs), '%');
  const sentAt = board.milliseconds;
  const kept = await line.until(session.request(ask.keep()));
  if (!kept.ok) throw new Error(JSON.stringify(kept.error));
  results.note(`keep-${key}`, `keep after it`, board.milliseconds - sentAt, 'ms');
  board.run(60_000 * CYCLES_PER_MS);
  const state = await line.until(session.request(ask.state()));
  if (!state.ok) throw new Error(JSON.stringify(state.error));
  results.note(`stack-free-${key}`, `stack never used after it and a minute, ${what}`, state.value.stack, 'bytes');
  await session.close();
}

/** From the last byte of a nudge to the lamp edge, over many moments. */
export function nudges(results: Results, table: BoardTable): void {
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
  results.note('nudge', 'nudge, last byte of its line to the lamp, worst of 40', worst, 'ms');
}

/** All lamps dark, each pin probed, lamps back: with an answer for each, a millisecond of the host at most between. */
export function selfCheck(results: Results, table: BoardTable): void {
  const rig = new Rig(table);
  rig.board.power(true);
  rig.runMs(300);
  const began = rig.board.cycles;
  rig.ask('lamp', 'all', 'off');
  rig.runMs(3);
  for (const { output, activeLow } of table.lamps) {
    const answer = rig.ask('probe', output, activeLow ? 0 : 1);
    if (!answer.startsWith('ok')) throw new Error(`the probe of pin ${output} was refused: ${answer}`);
  }
  rig.ask('lamp', 'all', 'auto');
  const took = (rig.board.cycles - began) / CYCLES_PER_MS;
  results.note('self-check', `self-check of ${table.lamps.length} lamps, from dark to lit again`, took, 'ms');
}
