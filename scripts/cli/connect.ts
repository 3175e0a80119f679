/** Opens the board behind `--port`: a serial device, or the virtual board with its EEPROM in the data folder. */
import { mkdirSync, readdirSync, statSync } from 'node:fs';
import { homedir } from 'node:os';
import { join } from 'node:path';
import { systemClock } from '../../electron/host/clock.ts';
import { dataFolder } from '../../electron/host/log/data-folder.ts';
import { LISTEN_FIRST_MS } from '../../electron/host/patience.ts';
import { openPort, VIRTUAL_PORT } from '../../electron/host/ports.ts';
import { greetingProblem, openingProblem } from '../../electron/host/service/failures.ts';
import { BoardSession } from '../../electron/host/session.ts';
import type { ByteStream } from '../../electron/host/stream.ts';
import { loadImage } from '../../electron/host/virtual/images.ts';
import { LiveBoard } from '../../electron/host/virtual/live.ts';
import type { Who } from '../../shared/link/requests.ts';
import { PROTOCOL_VERSION } from '../../shared/link/vocabulary.ts';
import type { Chip } from '../../shared/table/format.ts';
import type { Problem } from '../../shared/workbench/contract.ts';
import { describeProblem } from '../../shared/workbench/problems.ts';
import type { Report } from './output.ts';

export interface PortOptions {
  readonly port: string;
  /** Folder for the EEPROMs of virtual boards; the user's data folder by default. */
  readonly data?: string;
}

/** Which virtual board is meant, where a layout says so. */
export interface Meant {
  readonly board: string;
  readonly chip: Chip;
}

export interface Connected {
  readonly session: BoardSession;
  readonly who: Who;
}

/** Opens, greets, does the work and closes, whatever comes of it. */
export async function withBoard(
  options: PortOptions,
  meant: Meant | null,
  work: (connected: Connected) => Promise<Report>,
): Promise<Report> {
  const opened = await openStream(options, meant);
  if (!opened.ok) return { exit: 1, problem: opened.problem };
  const { stream, started } = opened;
  const session = new BoardSession(stream, { clock: systemClock });
  started();
  try {
    const where = { port: options.port };
    const greeting = await session.greet(meant?.chip === 'atmega328p' ? 0 : LISTEN_FIRST_MS);
    if (!greeting.ok) return { exit: 1, problem: forTerminal(greetingProblem(greeting.error, where), options.port) };
    const who = greeting.value;
    if (who.protocol !== PROTOCOL_VERSION) {
      const code = who.protocol < PROTOCOL_VERSION ? 'protocolOld' : 'protocolNew';
      return { exit: 1, problem: forTerminal(describeProblem(code, where), options.port) };
    }
    return await work({ session, who });
  } finally {
    await session.close();
  }
}

/** Problems that the panel has a button for: here it is a command. */
const BY_COMMAND = ['noAnswer', 'foreignFirmware', 'protocolOld'];

function forTerminal(problem: Problem, port: string): Problem {
  if (!BY_COMMAND.includes(problem.code)) return problem;
  const replaces = problem.code === 'foreignFirmware' ? ' (this replaces the other program)' : '';
  return { ...problem, next: `Check that it is the right port; then: amberwick firmware --port ${port}${replaces}.` };
}

type Opened =
  | { readonly ok: true; readonly stream: ByteStream; readonly started: () => void }
  | { readonly ok: false; readonly problem: Problem };

/** `started` is called once somebody listens: the virtual board gets its power then. */
export async function openStream({ port, data }: PortOptions, meant: Meant | null): Promise<Opened> {
  if (port === VIRTUAL_PORT || port.startsWith(`${VIRTUAL_PORT}:`)) return openVirtual(port, data, meant);
  const result = await openPort(port);
  if (!result.ok) return { ok: false, problem: openingProblem(result.error, { port }) };
  return { ok: true, stream: result.stream, started: () => {} };
}

function openVirtual(port: string, data: string | undefined, meant: Meant | null): Opened {
  const folder = join(data ?? dataFolder({ platform: process.platform, env: process.env, home: homedir() }), 'virtual');
  const named = port.includes(':') ? port.slice(port.indexOf(':') + 1) : null;
  const { board, chip } = chooseVirtual(folder, named, meant);
  const image = loadImage(chip);
  if (!image.ok) return { ok: false, problem: describeProblem('virtualFailed', { port, cause: image.error }) };
  mkdirSync(folder, { recursive: true });
  const live = new LiveBoard({ chip, flash: image.flash, eepromFile: join(folder, `${board}-${chip}.eeprom`) });
  return { ok: true, stream: live, started: () => live.power(true) };
}

/** The board named, else the one that the layout means, else the one used last, else a new one. */
export function chooseVirtual(folder: string, named: string | null, meant: Meant | null): Meant {
  if (meant) return { ...meant, board: named ?? meant.board };
  const known = knownBoards(folder).filter(({ board }) => named === null || board === named);
  return known[0] ?? { board: named ?? 'board', chip: 'atmega328p' };
}

function knownBoards(folder: string): Meant[] {
  let files: string[];
  try {
    files = readdirSync(folder);
  } catch {
    return [];
  }
  return files
    .flatMap((file) => {
      const match = /^(.+)-(atmega328p|atmega2560)\.eeprom$/.exec(file);
      if (!match?.[1]) return [];
      return [{ board: match[1], chip: match[2] as Chip, used: statSync(join(folder, file)).mtimeMs }];
    })
    .sort((a, b) => b.used - a.used);
}
