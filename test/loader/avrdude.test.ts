/**
 * An independent client against the loaders of these tests: Debian's avrdude, over a device node.
 *
 * A pseudo-terminal has no modem lines, so avrdude cannot reset the board; our side does it when
 * the device is opened, as the capacitor of a real board does. Chip erase is switched off (-D): no loader has it. For
 * `stk500v1` avrdude asks for the signature by the universal command, which the newer small loader answers with zeros:
 * there its own check is switched off (-F).
 */
import { execFile } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { expect, it, onTestFinished } from 'vitest';
import { systemClock } from '../../electron/host/clock.ts';
import type { LoaderKind } from '../../electron/host/loader/types.ts';
import { openPort } from '../../electron/host/ports.ts';
import { BoardSession } from '../../electron/host/session.ts';
import { loadImage } from '../../electron/host/virtual/images.ts';
import { BareBoard } from './bare-board.ts';
import { plugPty } from './pty-front.ts';
import { SIGNATURES } from './targets/kinds.ts';

const imageFile = (chip: string): string =>
  fileURLToPath(new URL(`../../firmware/images/amberwick-${chip}.hex`, import.meta.url));

/** Runs avrdude; what it says and its exit code. */
function avrdude(args: readonly string[]): Promise<{ code: number; said: string }> {
  return new Promise((resolve) => {
    execFile('avrdude', ['-q', '-D', ...args], (error, stdout, stderr) =>
      resolve({ code: error ? Number(error.code) : 0, said: stdout + stderr }),
    );
  });
}

async function plugged(loader: LoaderKind, signature?: string) {
  const board = new BareBoard({ loader, clock: systemClock, ...(signature ? { signature } : {}) });
  const pty = await plugPty(board);
  onTestFinished(() => pty.close());
  return { board, pty };
}

const CASES = [
  ['v1-115200', ['-F', '-c', 'stk500v1', '-p', 'm328p', '-b', '115200'], 'atmega328p'],
  ['v1-57600', ['-c', 'stk500v1', '-p', 'm328p', '-b', '57600'], 'atmega328p'],
  ['v2-115200', ['-c', 'stk500v2', '-p', 'm2560', '-b', '115200'], 'atmega2560'],
] as const;

for (const [loader, client, chip] of CASES) {
  it(`writes and verifies the shipped image through ${loader}, and the firmware starts`, async () => {
    const image = loadImage(chip);
    if (!image.ok) throw new Error(image.error);
    const { board, pty } = await plugged(loader);
    const { code, said } = await avrdude([...client, '-P', pty.path, '-U', `flash:w:${imageFile(chip)}:i`]);
    expect(said).toMatch(/\d+ bytes of flash verified/);
    expect(code).toBe(0);
    const used = image.flash.findLastIndex((byte) => byte !== 0xff) + 1;
    expect(Buffer.from(board.flash.bytes.subarray(0, used)).equals(image.flash.subarray(0, used))).toBe(true);
    expect(board.target.eepromCommands).toBe(0);
    const opened = await openPort(pty.path);
    if (!opened.ok) throw new Error(opened.error.detail);
    // Opening has reset the board, and the loader of the ATmega2560 stays as long as it hears anything.
    await expect.poll(() => board.state, { timeout: 60_000 }).toBe('program');
    const session = new BoardSession(opened.stream, { clock: systemClock });
    expect(await session.greet()).toMatchObject({ ok: true, value: { chip } });
    await session.close();
  });
}

it('refuses a board with another chip, by its signature', async () => {
  const { pty, board } = await plugged('v1-57600', SIGNATURES.unknown);
  const { code, said } = await avrdude(['-c', 'stk500v1', '-p', 'm328p', '-P', pty.path, '-b', '57600']);
  expect(said).toContain('0x1e9406');
  expect(code).not.toBe(0);
  expect(board.flash.written).toEqual([]);
});
