import { writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { siliconOf } from '../../electron/host/loader/silicon.ts';
import type { WriteOptions, Written } from '../../electron/host/loader/types.ts';
import type { BoardState } from '../../shared/workbench/contract.ts';
import { settle } from '../host/fake-clock.ts';
import { connected, PORT, type Rig, rig } from './rig.ts';
import { TableBoard } from './table-board.ts';

const OTHER_PORT = '/dev/ttyUSB1';

const written = (signature = '1E950F'): Written => {
  const silicon = siliconOf(signature);
  if (!silicon) throw new Error(signature);
  return { silicon, loader: 'v1-57600', bytes: 2 };
};

/** A boot loader that takes the firmware, after which the board answers. */
const takes =
  (board: TableBoard, { signature = '1E950F', change = () => {} }: { signature?: string; change?: () => void } = {}) =>
  async ({ onStage }: WriteOptions) => {
    onStage?.('reset', 0, 0);
    onStage?.('write', 1, 2);
    onStage?.('verify', 2, 2);
    board.script = {};
    board.firmware = '1.1.0';
    change();
    return { ok: true as const, value: written(signature) };
  };

const stages = ({ told }: Rig): string[] =>
  told.flatMap(({ name, data }) => {
    const { task } = data as BoardState;
    return name === 'board' && task?.stage ? [task.stage] : [];
  });

const distinct = (list: readonly string[]) => list.filter((it, at) => it !== list[at - 1]);

/** A board with a boot loader and nothing else. */
async function bare() {
  const bench = rig();
  const board = new TableBoard();
  board.identity = '00000000';
  board.script = { who: () => null };
  bench.ports.plugged.set(PORT, board);
  const connecting = bench.call('connect', { board: 'town', port: PORT });
  await bench.clock.advance(7000);
  expect(await connecting).toMatchObject({ ok: false, problem: { code: 'noAnswer' } });
  return { ...bench, bare: board };
}

/** Lets a call go on in board time until it is done. */
async function finish<T>(bench: Rig, call: Promise<T>): Promise<T> {
  let done = false;
  void call.then(() => {
    done = true;
  });
  for (let round = 0; !done && round < 100; round++) await bench.clock.advance(500);
  return call;
}

describe('a bare board', () => {
  it('is known as one, gets the firmware, is met, and is named with the first layout', async () => {
    const bench = await bare();
    expect(bench.board()).toMatchObject({ link: 'off', port: PORT, firmware: { match: 'none', shipped: '1.1.0' } });
    bench.loader.write = takes(bench.bare);
    const outcome = await finish(bench, bench.call('writeFirmware', { board: 'town', port: PORT }));
    expect(outcome).toMatchObject({
      ok: true,
      value: { link: 'ready', port: PORT, running: 'none', firmware: { match: 'same' }, task: null, problem: null },
    });
    expect(distinct(stages(bench))).toEqual(['read', 'reset', 'write', 'verify', 'greet']);
    expect(bench.logged().at(-1)).toBe('Wrote firmware 1.1.0 to Town board and read it back. It keeps no table yet.');
    // Written with the firmware, so that it is known again wherever it is plugged in.
    expect(bench.bare.identity).toMatch(/^(?!0{8})[0-9A-F]{8}$/);
    expect(Buffer.from(bench.bare.name, 'hex').toString()).toBe('Town board');
    expect(bench.board().silicon).toEqual({ name: 'ATmega328P', totalMilliamps: 200 });
    expect(bench.logFile().at(-1)).toMatchObject({ kind: 'firmware', data: { port: PORT, loader: 'v1-57600' } });
  });

  it('is written the next time by the loader that took it the last time', async () => {
    const bench = await bare();
    const likely: (string | undefined)[] = [];
    bench.loader.write = (options) => {
      likely.push(options.likely);
      return takes(bench.bare)(options);
    };
    const write = () => finish(bench, bench.call('writeFirmware', { board: 'town', port: PORT }));
    await write();
    await write();
    // Not connected: it is met on the way.
    await bench.call('disconnect', { board: 'town' });
    await write();
    expect(likely).toEqual([undefined, 'v1-57600', 'v1-57600']);
  });

  it('of the kind that carries less is told, now and the next time', async () => {
    const bench = await bare();
    bench.loader.write = takes(bench.bare, { signature: '1E9516' });
    await finish(bench, bench.call('writeFirmware', { board: 'town', port: PORT }));
    expect(bench.logged().at(-1)).toBe(
      'Wrote firmware 1.1.0 to Town board and read it back. Its chip is an ATmega328PB: 100 mA for all lamps ' +
        'together, where an ATmega328P has 200 mA. It keeps no table yet.',
    );
    await bench.call('disconnect', { board: 'town' });
    expect(bench.board().silicon).toBeNull();
    await finish(bench, bench.call('connect', { board: 'town', port: PORT }));
    expect(bench.board().silicon).toEqual({ name: 'ATmega328PB', totalMilliamps: 100 });
  });

  it('whose writing was interrupted is empty: said, shown as bare, and mended by pressing again', async () => {
    const bench = await bare();
    bench.loader.write = async () => ({ ok: false, error: { kind: 'ended', cause: 'pulled', leftAs: 'empty' } });
    const broken = await finish(bench, bench.call('writeFirmware', { board: 'town', port: PORT }));
    expect(broken).toMatchObject({ ok: false, problem: { code: 'firmwareBroken', detail: 'pulled' } });
    expect(bench.board()).toMatchObject({
      link: 'off',
      port: PORT,
      task: null,
      firmware: { match: 'none' },
      problem: {
        what: 'Writing the firmware of Town board was interrupted.',
        why: 'The board is empty, nothing is broken: its boot loader is still there.',
        next: 'Check the cable and press the same button again.',
      },
    });
    bench.loader.write = takes(bench.bare);
    expect(await finish(bench, bench.call('writeFirmware', { board: 'town', port: PORT }))).toMatchObject({ ok: true });
  });

  it('without a boot loader that answers is told with the remedy', async () => {
    const bench = await bare();
    const refused = await finish(bench, bench.call('writeFirmware', { board: 'town', port: PORT }));
    expect(refused).toMatchObject({
      ok: false,
      problem: { code: 'noLoader', next: expect.stringContaining('capacitor at the reset pin') },
    });
  });
});

describe('an update', () => {
  it('leaves what the board keeps, and copies it first', async () => {
    const bench = await connected((board) => {
      board.firmware = '1.0.0';
    });
    expect(bench.board().firmware).toEqual({ match: 'older', shipped: '1.1.0' });
    const { kept } = bench.real;
    bench.loader.write = takes(bench.real);
    expect(await finish(bench, bench.call('writeFirmware', { board: 'town', port: PORT }))).toMatchObject({ ok: true });
    expect(bench.logged().at(-1)).toBe(
      'Wrote firmware 1.1.0 to Town board and read it back. It still has what it had kept.',
    );
    expect(bench.real.kept).toEqual(kept);
    expect(bench.board()).toMatchObject({ running: 'same', kept: 'same', firmware: { match: 'same' } });
    expect(bench.real.keeps).toBe(0);
  });

  it('that the kept table does not survive puts it back, with name and identity', async () => {
    const bench = await connected((board) => {
      board.identity = '1A2B3C4D';
    });
    const { kept } = bench.real;
    bench.loader.write = takes(bench.real, {
      change: () => Object.assign(bench.real, { kept: null, run: null, identity: '00000000' }),
    });
    await finish(bench, bench.call('writeFirmware', { board: 'town', port: PORT }));
    expect(bench.logged().at(-1)).toBe(
      'Wrote firmware 1.1.0 to Town board and read it back. What it had kept was put back from the copy.',
    );
    expect(bench.real.kept).toEqual(kept);
    expect(bench.real.identity).toBe('1A2B3C4D');
    expect(bench.board()).toMatchObject({ running: 'same', kept: 'same', unkept: false });
  });

  it('called off before the first page is written connects the board again, as it was', async () => {
    const bench = await connected();
    bench.loader.write = ({ signal }) =>
      new Promise((resolve) => {
        signal?.addEventListener('abort', () =>
          resolve({ ok: false, error: { kind: 'cancelled', leftAs: 'untouched' } }),
        );
      });
    const writing = bench.call('writeFirmware', { board: 'town', port: PORT });
    await settle();
    await settle();
    expect(await bench.call('connect', { board: 'town', port: OTHER_PORT })).toMatchObject({
      problem: { code: 'boardBusy' },
    });
    await bench.call('cancelFirmware', { board: 'town' });
    expect(await finish(bench, writing)).toMatchObject({ ok: false, problem: { code: 'firmwareCancelled' } });
    expect(bench.board()).toMatchObject({ link: 'ready', running: 'same', problem: { code: 'firmwareCancelled' } });
  });

  it('is not for a virtual board', async () => {
    const bench = rig();
    expect(await bench.call('writeFirmware', { board: 'town', port: 'virtual:town' })).toMatchObject({
      ok: false,
      problem: { code: 'notReal' },
    });
  });

  it('keeps another layout from being opened that has no place for the board', async () => {
    const bench = await connected();
    let end: () => void = () => {};
    bench.loader.write = () =>
      new Promise((resolve) => {
        end = () => resolve({ ok: false, error: { kind: 'cancelled', leftAs: 'untouched' } });
      });
    const writing = bench.call('writeFirmware', { board: 'town', port: PORT });
    await settle();
    await settle();
    const text = (await textOf(bench)).replaceAll('"town"', '"hill"');
    expect(await bench.call('openText', { name: 'other.json', text })).toMatchObject({
      problem: { code: 'boardBusy' },
    });
    end();
    await finish(bench, writing);
    expect(bench.board().link).toBe('ready');
    expect(await bench.call('openText', { name: 'other.json', text })).toMatchObject({ ok: true });
  });
});

it('a board without an identity gets one with its first layout, and keeps it', async () => {
  const bench = await connected((board) => {
    board.identity = '00000000';
  });
  await bench.call('send', { board: 'town' });
  const { identity, name } = bench.real;
  expect(identity).toMatch(/^(?!0{8})[0-9A-F]{8}$/);
  expect(Buffer.from(name, 'hex').toString()).toBe('Town board');
  expect(bench.board().who).toMatchObject({ identity, name: 'Town board' });
  await bench.call('send', { board: 'town' });
  expect(bench.real.identity).toBe(identity);
});

it('says once that copies cannot be written, and goes on', async () => {
  const bench = rig();
  writeFileSync(join(dirname(bench.log.file), 'boards'), 'a file where the folder should be');
  bench.ports.plugged.set(PORT, await keeping());
  expect(await bench.call('connect', { board: 'town', port: PORT })).toMatchObject({ ok: true });
  await bench.call('nudge', { board: 'town', site: 0, dial: 0, ms: 21_500 });
  expect(await bench.call('keep', { board: 'town' })).toMatchObject({ ok: true });
  expect(bench.logged().filter((text) => /copied/.test(text))).toEqual([
    'What Town board keeps could not be copied to this computer.',
  ]);
});

async function keeping(): Promise<TableBoard> {
  const { real } = await connected();
  const board = new TableBoard();
  board.run = board.kept = real.kept;
  return board;
}

async function textOf(bench: Rig): Promise<string> {
  const scene = await bench.call('look', {});
  return scene.ok ? scene.value.document.text : '';
}

describe('a new board in the place of a broken one', () => {
  it('gets firmware, name and the times that the old one had kept, in one step', async () => {
    const bench = await connected();
    await bench.call('nudge', { board: 'town', site: 0, dial: 0, ms: 21_500 });
    await bench.call('keep', { board: 'town' });
    const { kept } = bench.real;
    expect(bench.board().copiedAt).toBe(new Date(bench.clock.now()).toISOString());
    bench.ports.pull(PORT);
    await settle();
    const spare = new TableBoard();
    spare.identity = '00000000';
    spare.script = { who: () => null };
    bench.ports.plugged.set(OTHER_PORT, spare);
    bench.loader.write = takes(spare);
    const outcome = await finish(bench, bench.call('replaceBoard', { board: 'town', port: OTHER_PORT }));
    expect(outcome).toMatchObject({ ok: true, value: { link: 'ready', port: OTHER_PORT, running: 'times' } });
    expect(spare.kept).toEqual(kept);
    expect(bench.board().keptDials?.[0]?.[0]).toBe(21_500);
    expect(spare.identity).not.toBe('00000000');
    expect(Buffer.from(spare.name, 'hex').toString()).toBe('Town board');
    expect(bench.logged().at(-1)).toBe(
      'Put a new board in the place of Town board, at /dev/ttyUSB1. It got the firmware first. ' +
        'It runs and keeps what the old board had kept.',
    );
  });

  it('without a copy gets the open layout; one that has our firmware is not written', async () => {
    const bench = rig();
    const spare = new TableBoard();
    bench.ports.plugged.set(PORT, spare);
    bench.loader.write = () => {
      throw new Error('nothing is to be written');
    };
    const outcome = await finish(bench, bench.call('replaceBoard', { board: 'town', port: PORT }));
    expect(outcome).toMatchObject({ ok: true, value: { running: 'same', kept: 'same', unkept: false } });
    expect(spare.identity).toBe('0000A001');
    expect(bench.logged().at(-1)).toBe(
      'Put a new board in the place of Town board, at /dev/ttyUSB0. ' +
        'It runs and keeps the open layout; there was no copy of what the old board had kept.',
    );
  });

  it('does not take what the new board itself kept for a copy of the old one', async () => {
    const bench = await connected();
    await bench.call('nudge', { board: 'town', site: 0, dial: 0, ms: 21_500 });
    await bench.call('keep', { board: 'town' });
    const old = bench.real.kept;
    const spare = new TableBoard();
    spare.identity = '0000B002';
    spare.kept = spare.run = bench.real.kept && changed(bench.real.kept);
    bench.ports.plugged.set(OTHER_PORT, spare);
    await bench.clock.advance(60_000);
    await finish(bench, bench.call('replaceBoard', { board: 'town', port: OTHER_PORT }));
    expect(spare.kept).toEqual(old);
  });

  it('of the wrong chip is refused before anything is written to it', async () => {
    const bench = rig();
    const spare = new TableBoard();
    spare.chip = 'atmega2560';
    bench.ports.plugged.set(PORT, spare);
    const outcome = await finish(bench, bench.call('replaceBoard', { board: 'town', port: PORT }));
    expect(outcome).toMatchObject({ ok: false, problem: { code: 'wrongChip' } });
    expect(spare.kept).toBeNull();
  });
});

/** The image with another time in its last dial. */
function changed(image: Uint8Array): Uint8Array {
  const other = image.slice();
  other[other.length - 2] = (other[other.length - 2] ?? 0) ^ 1;
  return other;
}
