/**
 * A bare board becomes ours and stays ours: written through its boot loader, greeted, given the
 * example, told to keep it, pulled out, plugged in, and written once more, all over a device node with the real
 * serial library. The reset pulse is given at our side, since a pseudo-terminal has no modem lines.
 */
import { expect, it, onTestFinished } from 'vitest';
import { systemClock } from '../../electron/host/clock.ts';
import { openLoaderPort } from '../../electron/host/loader/port.ts';
import type { LoaderKind, WriteStage } from '../../electron/host/loader/types.ts';
import { writeFirmware } from '../../electron/host/loader/write.ts';
import { LISTEN_FIRST_MS } from '../../electron/host/patience.ts';
import { openPort } from '../../electron/host/ports.ts';
import { readBack } from '../../electron/host/readback.ts';
import { BoardSession } from '../../electron/host/session.ts';
import { upload } from '../../electron/host/upload.ts';
import { loadImage } from '../../electron/host/virtual/images.ts';
import { ask } from '../../shared/link/requests.ts';
import type { Chip } from '../../shared/table/format.ts';
import { exampleImage } from '../host-service/rig.ts';
import { BareBoard } from './bare-board.ts';
import { type PtyBoard, plugPty } from './pty-front.ts';
import { LOADER_KINDS } from './targets/drive.ts';

const PATIENT = { timeout: 60_000 };
/** 25 KB each way at the rate of the line, twice, on a computer that may be busy; nothing is asserted about it. */
const LIFE_MS = 400_000;

function shipped(chip: Chip): Uint8Array {
  const image = loadImage(chip);
  if (!image.ok) throw new Error(image.error);
  return image.flash;
}

async function put(pty: PtyBoard, likely?: LoaderKind) {
  const stages: WriteStage[] = [];
  const outcome = await writeFirmware({
    open: (baud) => openLoaderPort(pty.path, baud, { pulse: pty.pulse }),
    clock: systemClock,
    chip: null,
    image: shipped,
    onStage: (stage) => stages.push(stage),
    ...(likely ? { likely } : {}),
  });
  expect(stages).not.toContain('press');
  return outcome;
}

/** Opening resets the board, as on most; the loader of the ATmega2560 stays as long as it hears anything. */
async function greeted(pty: PtyBoard): Promise<BoardSession> {
  const opened = await openPort(pty.path);
  if (!opened.ok) throw new Error(opened.error.detail);
  const session = new BoardSession(opened.stream, { clock: systemClock });
  expect(await session.greet(LISTEN_FIRST_MS)).toMatchObject({ ok: true, value: { chip: pty.board.chip } });
  return session;
}

async function keptBytes(session: BoardSession): Promise<Uint8Array | null> {
  const kept = await readBack(session, 'kept');
  if (!kept.ok) throw new Error(kept.error.kind);
  return kept.value?.bytes ?? null;
}

for (const loader of LOADER_KINDS) {
  it(
    `${loader}: from bare to ours, and what it keeps survives the next firmware`,
    async () => {
      const board = new BareBoard({ loader, clock: systemClock });
      const pty = await plugPty(board);
      onTestFinished(() => pty.close());
      const example = exampleImage((text) => text.replaceAll('atmega328p', board.chip));

      expect(await put(pty)).toMatchObject({ ok: true, value: { loader } });
      const first = await greeted(pty);
      expect(await keptBytes(first)).toBeNull();
      expect(board.drivenPins).toEqual([]);
      expect(await upload(first, example)).toMatchObject({ ok: true });
      // The lamps of three sites are wired to it.
      await expect.poll(() => board.drivenPins.length, PATIENT).toBe(14);
      expect(await first.request(ask.keep())).toMatchObject({ ok: true });
      await first.close();

      const { eeprom } = board;
      expect(await put(pty, loader)).toMatchObject({ ok: true });
      const second = await greeted(pty);
      expect(await keptBytes(second)).toEqual(example);
      await second.close();
      expect(board.eeprom.slice(0, 512)).toEqual(eeprom.slice(0, 512));

      await pty.unplug();
      expect(await openPort(pty.path)).toMatchObject({ ok: false, error: { kind: 'missing' } });
      await pty.replug();
      const third = await greeted(pty);
      await expect.poll(() => board.drivenPins.length, PATIENT).toBe(14);
      expect(await keptBytes(third)).toEqual(example);
      await third.close();
      expect(board.target.eepromCommands).toBe(0);
    },
    LIFE_MS,
  );
}

it(
  'unplugged in the middle of the write: told as such, dark, and done again over the new device',
  async () => {
    const board = new BareBoard({ loader: 'v1-115200', clock: systemClock });
    const pty = await plugPty(board);
    onTestFinished(() => pty.close());
    let written = 0;
    const outcome = await writeFirmware({
      open: (baud) => openLoaderPort(pty.path, baud, { pulse: pty.pulse }),
      clock: systemClock,
      chip: 'atmega328p',
      image: shipped,
      onStage: (stage, done) => {
        if (stage === 'write' && done > 2000 && written === 0) {
          written = done;
          void pty.unplug();
        }
      },
    });
    expect(outcome).toMatchObject({ ok: false, error: { kind: 'ended', leftAs: 'empty' } });
    expect(board.state).toBe('off');
    await pty.replug();
    expect(board.drivenPins).toEqual([]);
    expect(await put(pty)).toMatchObject({ ok: true });
    await (await greeted(pty)).close();
  },
  LIFE_MS,
);
