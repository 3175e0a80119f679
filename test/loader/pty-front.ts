/**
 * A device node in front of a bare board, for the real serial library and for
 * other programs. It survives closing and opening again at another rate, as
 * the device of a USB bridge does; pulling the cable takes it away, and plugging
 * in makes a new one. Pseudo-terminals have no modem lines: opening resets the
 * board as on most boards, and a pulse has to be given at this side (`pulse`).
 * Linux only; needs gcc.
 */
import { type ChildProcess, execFileSync, spawn } from 'node:child_process';
import { mkdtempSync, rmSync, symlinkSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';
import type { BareBoard } from './bare-board.ts';

export interface PtyBoard {
  /** The device; the same name after every replugging. */
  readonly path: string;
  readonly board: BareBoard;
  /** Resets the board as a pulse by the modem lines would; false as `BareBoard.pulseReset`. */
  readonly pulse: () => Promise<boolean>;
  /** Pulls the cable: the device vanishes. */
  unplug(): Promise<void>;
  /** Plugs it in again: a new device under the old name. */
  replug(): Promise<void>;
  /** Unplugs for good and cleans up. */
  close(): Promise<void>;
}

const SOURCE = fileURLToPath(new URL('./targets/pty-front.c', import.meta.url));

/** The board's clock has to be the real one. Throws where no pseudo-terminal can be had. */
export async function plugPty(board: BareBoard): Promise<PtyBoard> {
  const folder = mkdtempSync(join(tmpdir(), 'amberwick-device-'));
  const program = join(folder, 'front');
  execFileSync('gcc', ['-O1', '-Wall', '-Wextra', '-o', program, SOURCE]);
  const path = join(folder, 'ttyUSB0');
  let front = await openFront(program, path, board);
  const unplug = async (): Promise<void> => {
    rmSync(path, { force: true });
    board.unplug();
    await front.close();
  };
  return {
    path,
    board,
    pulse: async () => board.pulseReset(),
    unplug,
    replug: async () => {
      board.replug();
      front = await openFront(program, path, board);
    },
    close: async () => {
      await unplug();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

interface Front {
  close(): Promise<void>;
}

function openFront(program: string, path: string, board: BareBoard): Promise<Front> {
  const child = spawn(program, [], { stdio: ['pipe', 'pipe', 'inherit'] });
  const gone = new Promise<void>((resolve) => child.once('close', () => resolve()));
  child.stdin.on('error', () => {});
  return new Promise((resolve, reject) => {
    child.once('error', reject);
    child.once('close', () => reject(new Error('no pseudo-terminal could be opened')));
    createInterface({ input: child.stdout }).on('line', (line) => {
      const [word = '', rest = ''] = line.split(' ');
      if (word !== 'path') return happen(child, board, word, rest);
      symlinkSync(rest, path);
      const close = async (): Promise<void> => {
        child.kill();
        await gone;
      };
      resolve({ close });
    });
  });
}

function happen(child: ChildProcess, board: BareBoard, word: string, rest: string): void {
  // What was still on its way when the cable was pulled.
  if (!board.pluggedIn) return;
  if (word === 'data') board.write(Uint8Array.from(Buffer.from(rest, 'hex')));
  else if (word === 'rate') board.setRate(Number(rest));
  else if (word === 'closed') board.detach();
  else if (word === 'open') {
    const heard = (bytes: Uint8Array): void => {
      if (child.stdin?.writable) child.stdin.write(bytes);
    };
    board.attach({ heard, ended: () => child.kill() }, Number(rest));
  }
}
