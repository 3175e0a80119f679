/** A lamp check by the real host on the shipped firmware, in the board's own time: what the lamps do, and what they do when the app dies. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it, onTestFinished } from 'vitest';
import { BoardBook } from '../../electron/host/book/board-book.ts';
import { CheckBook } from '../../electron/host/checks/check-book.ts';
import { SessionLog } from '../../electron/host/log/session-log.ts';
import { WorkbenchHost } from '../../electron/host/service/workbench.ts';
import { VirtualBoard } from '../../electron/host/virtual/board.ts';
import { DirectLine } from '../../electron/host/virtual/direct.ts';
import { loadImage } from '../../electron/host/virtual/images.ts';
import { LampWires } from '../../electron/host/virtual/lamps.ts';
import penmarrow from '../../shared/layout/examples/penmarrow.json?raw';
import { parseLayout } from '../../shared/layout/parse.ts';
import { compileLayout } from '../../shared/signals/compile.ts';
import type { CallArgs, CallName, CallResults, Outcome } from '../../shared/workbench/contract.ts';
import { answerCall } from '../../shared/workbench/serve.ts';

const PORT = '/dev/ttyUSB0';

/** The host joined to a board; time goes on only while something is awaited. */
async function bench() {
  const { layout } = parseLayout(penmarrow);
  const table = layout && compileLayout(layout).boards[0]?.table;
  const firmware = loadImage('atmega328p');
  if (!table || !firmware.ok) throw new Error('no image');
  const board = new VirtualBoard({ chip: 'atmega328p', flash: firmware.flash });
  const wires = new LampWires(table, () => {});
  board.onPin = (pin, level, cycles) => wires.pin(pin, level, cycles);
  board.power(true);
  const line = new DirectLine(board);
  const folder = mkdtempSync(join(tmpdir(), 'amberwick-check-'));
  const now = () => new Date(line.now());
  const log = new SessionLog(join(folder, 'sessions'), now);
  onTestFinished(() => {
    log.close();
    rmSync(folder, { recursive: true });
  });
  const host = new WorkbenchHost({
    shell: 'browser',
    version: '0.0.0',
    clock: line,
    now,
    log,
    book: new BoardBook(join(folder, 'boards'), now),
    checks: new CheckBook(join(folder, 'checks')),
    writeFirmware: async () => ({ ok: false, error: { kind: 'noLoader', pulsed: true, heardBytes: false } }),
    serial: {
      list: async () => [],
      open: async () => ({ ok: true, stream: line }),
      openLoader: async () => ({ ok: false, error: { kind: 'missing', detail: '' } }),
      present: async () => [PORT],
    },
    makeVirtual: () => ({ ok: false, error: 'none here' }),
  });
  const done = async <N extends CallName>(name: N, args: CallArgs<N>): Promise<CallResults[N]> => {
    const outcome = (await line.until(answerCall(host.handlers, name, args))) as Outcome<CallResults[N]>;
    if (!outcome.ok) throw new Error(`${name}: ${outcome.problem.what}`);
    return outcome.value;
  };
  /** The host goes on with its work for so long. */
  const wait = (ms: number): Promise<void> => line.until(new Promise((go) => line.setTimer(ms, go)));
  const lit = (): number[] => wires.lit.flatMap((on, lamp) => (on ? [lamp] : []));
  await done('connect', { board: 'town', port: PORT });
  await done('send', { board: 'town' });
  return { board, line, done, wait, lit, log };
}

/** Lit at the start of Penmarrow: both main roads green, the others red, one beacon. */
const START = [2, 3, 8, 9, 12];

it('lights one lamp at a time, in flashes where it is told to, and lets the sites go on as they would have', async () => {
  const { done, wait, lit, board } = await bench();
  const begun = board.milliseconds;
  await wait(100);
  expect(lit()).toEqual(START);
  await done('beginCheck', { board: 'town', others: 'dark' });
  expect(lit()).toEqual([]);
  await done('light', { board: 'town', lamp: 0, forMs: 0 });
  await wait(6000);
  expect(lit(), 'the heartbeat keeps it alive').toEqual([0]);
  await done('light', { board: 'town', lamp: 7, forMs: 0 });
  expect(lit()).toEqual([7]);
  await done('light', { board: 'town', lamp: null, forMs: 0 });
  expect(lit()).toEqual([]);
  await done('endCheck', { board: 'town' });
  // Market Cross shows green for 18 s from its start: it has gone on underneath.
  expect(lit()).toEqual(expect.arrayContaining([2, 3]));
  await wait(18_000 - (board.milliseconds - begun) + 600);
  expect(lit()).toEqual(expect.arrayContaining([1, 3]));
});

it('the app dies in the middle: within five seconds the board is back at its table by itself', async () => {
  const { done, wait, lit, board, line } = await bench();
  await done('beginCheck', { board: 'town', others: 'safe' });
  await done('light', { board: 'town', lamp: 4, forMs: 0 });
  await wait(500);
  // Market Cross is dark but for the lamp; the others show their safe aspects.
  expect(lit().filter((lamp) => lamp < 6)).toEqual([4]);
  const safe = lit().filter((lamp) => lamp >= 6);
  expect(safe).toEqual(expect.arrayContaining([6, 9]));
  // Nothing more is written: the host is gone.
  line.write = () => {};
  // The last heartbeat was at most half a second ago.
  board.run(16_000 * 4400);
  expect(lit()).toEqual([4, ...safe]);
  board.run(16_000 * 600);
  expect(lit()).toEqual(expect.arrayContaining([2, 3, 8, 9]));
});

it('flashes end on the board itself', async () => {
  const { done, wait, lit } = await bench();
  await done('beginCheck', { board: 'town', others: 'dark' });
  await done('light', { board: 'town', lamp: 5, forMs: 150 });
  expect(lit()).toEqual([5]);
  await wait(200);
  expect(lit()).toEqual([]);
});
