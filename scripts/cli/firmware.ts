/**
 * `amberwick firmware`: puts the firmware on a board through its boot loader, and
 * sees that the board keeps what it kept; with `--check` asks only who is there.
 */
import { homedir } from 'node:os';
import { join } from 'node:path';
import { BoardBook, bookKey } from '../../electron/host/book/board-book.ts';
import { type Clock, systemClock } from '../../electron/host/clock.ts';
import type { LoaderKind, WriteStage, Written } from '../../electron/host/loader/types.ts';
import { type AskOptions, askLoader, writeFirmware } from '../../electron/host/loader/write.ts';
import { dataFolder } from '../../electron/host/log/data-folder.ts';
import { LISTEN_FIRST_MS } from '../../electron/host/patience.ts';
import { VIRTUAL_PORT } from '../../electron/host/ports.ts';
import { type Rescued, type Restored, rescue, restore } from '../../electron/host/rescue.ts';
import { chipName, greetingProblem, openingProblem, requestProblem } from '../../electron/host/service/failures.ts';
import { chipText } from '../../electron/host/service/firmware-sentences.ts';
import { writeProblem } from '../../electron/host/service/loader-failures.ts';
import { type SerialPorts, systemPorts } from '../../electron/host/service/ports.ts';
import { BoardSession } from '../../electron/host/session.ts';
import { loadImage } from '../../electron/host/virtual/images.ts';
import type { Who } from '../../shared/link/requests.ts';
import type { Chip } from '../../shared/table/format.ts';
import type { Problem } from '../../shared/workbench/contract.ts';
import { describeProblem } from '../../shared/workbench/problems.ts';
import type { Console, Report } from './output.ts';

export interface FirmwareOptions {
  readonly port: string;
  readonly chip?: string;
  readonly check?: boolean;
  /** Data folder, for the copy of what the board keeps. */
  readonly data?: string;
}

/** The way to boards; a test brings its own. `signal` stands for Ctrl+C. */
export interface FirmwareWays {
  readonly ports: SerialPorts;
  readonly clock: Clock;
  readonly signal?: AbortSignal;
}

const LOADER_WORDS: Readonly<Record<LoaderKind, string>> = {
  'v1-115200': 'the newer, small loader at 115,200 baud',
  'v1-57600': 'the older loader at 57,600 baud',
  'v2-115200': 'the loader of the large chip at 115,200 baud',
};

const CHIPS: readonly Chip[] = ['atmega328p', 'atmega2560'];

export async function firmware(
  options: FirmwareOptions,
  io: Console,
  ways: FirmwareWays = { ports: systemPorts, clock: systemClock },
): Promise<Report> {
  const { port } = options;
  const chip = CHIPS.find((known) => known === options.chip) ?? null;
  if (options.chip !== undefined && chip === null) return misread(options.chip);
  if (port === VIRTUAL_PORT || port.startsWith(`${VIRTUAL_PORT}:`)) {
    return { exit: 1, problem: describeProblem('notReal', {}) };
  }
  const calling = ways.signal ? { signal: ways.signal, end: () => {} } : interrupts(io);
  try {
    const job = new FirmwareJob(options, io, ways, calling.signal);
    return options.check ? await job.check(chip) : await job.put(chip);
  } finally {
    calling.end();
  }
}

/** The first Ctrl+C calls the work off, the second ends the program. */
function interrupts(io: Console): { readonly signal: AbortSignal; end(): void } {
  const calledOff = new AbortController();
  const stop = () => {
    io.err('\nCalling it off...\n');
    calledOff.abort();
  };
  process.once('SIGINT', stop);
  return { signal: calledOff.signal, end: () => process.off('SIGINT', stop) };
}

class FirmwareJob {
  private readonly port: string;
  private readonly io: Console;
  private readonly ways: FirmwareWays;
  private readonly signal: AbortSignal;
  private readonly book: BoardBook;
  private stage: WriteStage | null = null;

  constructor({ port, data }: FirmwareOptions, io: Console, ways: FirmwareWays, signal: AbortSignal) {
    this.port = port;
    this.io = io;
    this.ways = ways;
    this.signal = signal;
    const folder = data ?? dataFolder({ platform: process.platform, env: process.env, home: homedir() });
    this.book = new BoardBook(join(folder, 'boards'), () => new Date());
  }

  async check(chip: Chip | null): Promise<Report> {
    const { port } = this;
    this.io.err(`Asks the boot loader at ${port} who is there; this starts the board anew. Nothing is written.\n`);
    const met = await askLoader(this.approach(chip));
    if (!met.ok) return this.failure(writeProblem(met.error, { port }, chip ? chipName(chip) : 'any chip'));
    const { loader, signature, silicon } = met.value;
    const data = {
      port,
      loader,
      signature,
      chip: silicon?.name ?? null,
      totalMilliamps: silicon?.totalMilliamps ?? null,
    };
    const text = [`Signature ${signature}, behind ${LOADER_WORDS[loader]}.`];
    if (silicon === null) {
      const detail = `signature ${signature}`;
      return { exit: 1, data, text, problem: describeProblem('loaderUnknownChip', { port, detail }) };
    }
    const note = chipText(silicon);
    return { exit: 0, data, text: [...text, `The chip is an ${silicon.name}.`, ...(note ? [note] : [])] };
  }

  async put(wanted: Chip | null): Promise<Report> {
    const { port, io } = this;
    io.err(`Replaces the program on the board at ${port} by the Amberwick firmware. What the board has kept stays.\n`);
    const before = await this.before();
    if (before?.kept) io.err('Copied what the board keeps.\n');
    const chip = wanted ?? before?.chip ?? null;
    const likely = before ? this.book.recall(this.key(before))?.loader : null;
    const written = await writeFirmware({
      ...this.approach(chip),
      ...(likely ? { likely } : {}),
      image: (found) => {
        const loaded = loadImage(found);
        return loaded.ok ? loaded.flash : null;
      },
    });
    if (!written.ok) return this.failure(writeProblem(written.error, { port }, chip ? chipName(chip) : 'any chip'));
    return this.after(written.value, before);
  }

  private approach(chip: Chip | null): AskOptions {
    const { ports, clock } = this.ways;
    return {
      clock,
      chip,
      signal: this.signal,
      open: async (baud) => {
        const opened = await ports.openLoader?.(this.port, baud);
        return opened ?? { ok: false, error: { kind: 'failed', detail: 'no boot loader can be reached here' } };
      },
      onStage: (stage, done, total) => this.tell(stage, done, total),
    };
  }

  private tell(stage: WriteStage, done: number, total: number): void {
    if (total > 0) this.io.progress(done, total);
    if (stage === this.stage) return;
    this.stage = stage;
    if (stage === 'press') {
      this.io.err('Press the reset button of the board now, and again every two seconds until writing begins.\n');
    }
  }

  /** What the board keeps, where it is one of ours; also into the book, so that it outlives this program. */
  private async before(): Promise<(Rescued & { readonly chip: Chip | null }) | null> {
    const met = await this.greeted(async (session, who) => {
      const rescued = await rescue(session);
      return rescued.ok ? { ...rescued.value, chip: CHIPS.find((known) => known === who.chip) ?? null } : null;
    }, this.signal);
    const found = met.ok ? met.value : null;
    if (met.ok && !found)
      this.io.err('What the board keeps could not be copied; it stays in the memory of the board.\n');
    if (found?.kept && found.chip) this.book.learn(this.key(found), found.chip, { name: found.name, kept: found.kept });
    return found;
  }

  private async after(written: Written, before: (Rescued & { readonly chip: Chip | null }) | null): Promise<Report> {
    const { silicon, loader, bytes } = written;
    if (before) this.book.learn(this.key(before), silicon.chip, { signature: silicon.signature, loader });
    const note = chipText(silicon);
    const text = [`Wrote ${bytes} bytes to the ${silicon.name} and read them back.`, ...(note ? [note] : [])];
    const { name, signature, totalMilliamps } = silicon;
    const data = { port: this.port, loader, bytes, chip: name, signature, totalMilliamps };
    const met = await this.greeted(async (session, who) => {
      const restored = before ? await restore(session, before, (done, total) => this.io.progress(done, total)) : null;
      if (restored && !restored.ok)
        return { problem: this.lost(requestProblem(restored.error, { port: this.port }).what) };
      const kept: Restored = restored?.value ?? 'none';
      return { firmware: who.firmware, kept };
    });
    if (!met.ok) return { exit: 1, data, text, problem: met.problem };
    if ('problem' in met.value) return { exit: 1, data, text, problem: met.value.problem };
    const { firmware: version, kept } = met.value;
    return {
      exit: 0,
      data: { ...data, before: before?.firmware ?? null, firmware: version, kept },
      text: [...text, `The board runs firmware ${version}.`, KEPT_WORDS[kept]],
    };
  }

  /** Opens the port as the panel does, greets, works and closes; an abort ends the greeting. */
  private async greeted<T>(
    work: (session: BoardSession, who: Who) => Promise<T>,
    signal?: AbortSignal,
  ): Promise<{ readonly ok: true; readonly value: T } | { readonly ok: false; readonly problem: Problem }> {
    const { port } = this;
    const opened = await this.ways.ports.open(port);
    if (!opened.ok) return { ok: false, problem: openingProblem(opened.error, { port }) };
    const session = new BoardSession(opened.stream, { clock: this.ways.clock });
    const stop = () => void session.close();
    if (signal?.aborted) stop();
    signal?.addEventListener('abort', stop);
    try {
      const met = await session.greet(LISTEN_FIRST_MS);
      if (!met.ok) return { ok: false, problem: greetingProblem(met.error, { port }) };
      return { ok: true, value: await work(session, met.value) };
    } finally {
      signal?.removeEventListener('abort', stop);
      await session.close();
    }
  }

  private key({ identity, name }: Rescued): string {
    return bookKey(identity, name || 'board');
  }

  private lost(cause: string): Problem {
    const saved = this.book.failure;
    return describeProblem('restoreFailed', { port: this.port, cause, ...(saved ? { detail: saved } : {}) });
  }

  private failure(problem: Problem): Report {
    return { exit: 1, data: { port: this.port }, problem };
  }
}

const KEPT_WORDS: Readonly<Record<Restored, string>> = {
  none: 'It keeps no table yet: send a layout.',
  survived: 'It still keeps the table that it kept before.',
  putBack: 'Its kept table was lost by the update and has been put back.',
};

function misread(chip: string): Report {
  const words = { what: `"${chip}" is no chip that there is firmware for.`, why: 'There are two.' };
  return { exit: 2, problem: { code: 'misread', ...words, next: 'Write --chip atmega328p or --chip atmega2560.' } };
}
