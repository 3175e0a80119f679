/**
 * Pulls the cable of a board at random moments of everything that is done with
 * it, through a device node and the real serial library, and plugs it in again.
 * Nothing but what a person would do is done to get on.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { systemClock } from '../../electron/host/clock.ts';
import { openLoaderPort } from '../../electron/host/loader/port.ts';
import { openPort } from '../../electron/host/ports.ts';
import { presentPorts } from '../../electron/host/serial/present.ts';
import { createHost, type Host } from '../../electron/host/service/host.ts';
import { loadImage } from '../../electron/host/virtual/images.ts';
import type {
  BoardState,
  CallArgs,
  CallName,
  CallResults,
  LogEntry,
  Outcome,
} from '../../shared/workbench/contract.ts';
import { answerCall } from '../../shared/workbench/serve.ts';
import { type Dice, pick, seededDice } from '../fixtures/dice.ts';
import { BareBoard } from '../loader/bare-board.ts';
import { type PtyBoard, plugPty } from '../loader/pty-front.ts';

const BOARD = 'town';
/** Nothing takes longer than this, ms; a computer that is busy is waited for. */
const PATIENCE_MS = 120_000;

export interface Storm {
  readonly pulled: Readonly<Record<string, number>>;
  /** Times that a firmware write was cut off half way and done again. */
  readonly emptied: number;
  readonly log: readonly LogEntry[];
}

export interface StormOptions {
  readonly folder: string;
  readonly seed: number;
  readonly rounds: number;
  readonly progress?: (done: number, what: string) => void;
}

/** Throws when something does not come right by what a person would do. */
export async function storm(options: StormOptions): Promise<Storm> {
  const person = await Person.sitDown(options.folder, seededDice(options.seed));
  try {
    for (let round = 0; round < options.rounds; round++) {
      const what = await person.round();
      options.progress?.(round + 1, what);
    }
  } finally {
    await person.leave();
  }
  return person.result();
}

/** `longest` is about how long it takes without a pulled plug, ms. */
interface Activity {
  readonly name: string;
  readonly longest: number;
  readonly doIt: () => Promise<Outcome<unknown>>;
}

class Person {
  private readonly folder: string;
  private readonly dice: Dice;
  private readonly host: Host;
  private readonly device: PtyBoard;
  private readonly pulled: Record<string, number> = {};
  private emptied = 0;
  /** The last note of a lamp check that was said to be kept. */
  private noted: string | null = null;
  /** First dial of the first site: what the board may start with, ms. */
  private kept: number[] = [];

  private constructor(folder: string, dice: Dice, device: PtyBoard) {
    this.folder = folder;
    this.dice = dice;
    this.device = device;
    const { path } = device;
    this.host = createHost({
      shell: 'browser',
      version: '0.0.0',
      dataFolder: folder,
      serial: {
        list: async () => [{ path, label: 'bench device', likely: true, virtual: false }],
        open: openPort,
        openLoader: (where, baud) => openLoaderPort(where, baud, { pulse: device.pulse }),
        present: presentPorts,
      },
    });
  }

  /** The board has the firmware, and keeps the example. */
  static async sitDown(folder: string, dice: Dice): Promise<Person> {
    const image = loadImage('atmega328p');
    if (!image.ok) throw new Error(image.error);
    const board = new BareBoard({ loader: 'v1-115200', clock: systemClock, flash: image.flash });
    const person = new Person(folder, dice, await plugPty(board));
    await person.host.start();
    await person.must('connect', { board: BOARD, port: person.device.path });
    await person.must('send', { board: BOARD });
    await person.must('keep', { board: BOARD });
    person.kept = [18_000];
    return person;
  }

  async round(): Promise<string> {
    const activity = pick(this.dice, this.activities());
    const doing = activity.doIt();
    await pause(this.dice.int(0, activity.longest));
    await this.device.unplug();
    this.pulled[activity.name] = (this.pulled[activity.name] ?? 0) + 1;
    const outcome = await withPatience(doing, activity.name);
    if (!outcome.ok && outcome.problem.code === 'hostFailed') throw new Error(`${outcome.problem.detail}`);
    await pause(this.dice.int(0, 1500));
    await this.device.replug();
    await this.comeBack();
    await this.checkKept();
    await this.checkShowing();
    return activity.name;
  }

  result(): Storm {
    return { pulled: this.pulled, emptied: this.emptied, log: readLog(this.folder) };
  }

  async leave(): Promise<void> {
    await this.host.close();
    await this.device.close();
  }

  private activities(): Activity[] {
    const at = { board: BOARD };
    const time = 15_000 + 10 * this.dice.int(0, 1000);
    return [
      { name: 'send', longest: 1500, doIt: () => this.call('send', at) },
      { name: 'keep', longest: 200, doIt: () => this.nudgeAndKeep(time) },
      { name: 'put back', longest: 300, doIt: () => this.call('putBack', at) },
      { name: 'hold', longest: 300, doIt: () => this.call('hold', { ...at, site: 0, on: true }) },
      { name: 'all dark', longest: 300, doIt: () => this.call('master', { ...at, state: 'off' }) },
      { name: 'pause', longest: 300, doIt: () => this.call('pause', { ...at, on: true }) },
      { name: 'check', longest: 1500, doIt: () => this.checkLamps() },
      { name: 'self-check', longest: 700, doIt: () => this.probePins() },
      { name: 'firmware', longest: 12_000, doIt: () => this.call('writeFirmware', { ...at, port: this.device.path }) },
    ];
  }

  private async nudgeAndKeep(ms: number): Promise<Outcome<unknown>> {
    const nudged = await this.call('nudge', { board: BOARD, site: 0, dial: 0, ms });
    if (!nudged.ok) return nudged;
    // From here on the board may start with either.
    this.kept.push(ms);
    return this.call('keep', { board: BOARD });
  }

  /** Lamp after lamp with what was seen noted, as a person goes on until it is refused. */
  private async checkLamps(): Promise<Outcome<unknown>> {
    const began = await this.call('beginCheck', { board: BOARD, others: this.dice.int(0, 1) === 0 ? 'dark' : 'safe' });
    if (!began.ok) return began;
    for (let lamp = 0; lamp < 6; lamp++) {
      const lit = await this.call('light', { board: BOARD, lamp, forMs: lamp % 2 === 0 ? 0 : 300 });
      if (!lit.ok) return lit;
      await pause(100);
      const by = `Person ${this.dice.int(0, 999_999)}`;
      const record = { board: BOARD, by, began: new Date().toISOString(), lamps: [] };
      const said = await this.call('noteCheck', { board: BOARD, record, said: `${by} looked at lamp ${lamp}.` });
      if (said.ok) this.noted = by;
    }
    return this.call('endCheck', { board: BOARD });
  }

  private async probePins(): Promise<Outcome<unknown>> {
    const began = await this.call('beginCheck', { board: BOARD, others: 'dark' });
    if (!began.ok) return began;
    for (let pin = 5; pin <= 9; pin++) {
      const probed = await this.call('probe', { board: BOARD, pin, activeLow: false });
      if (!probed.ok) return probed;
    }
    return this.call('endCheck', { board: BOARD });
  }

  /** Waits for the board; where it is empty, presses the button again, as the problem says. */
  private async comeBack(): Promise<void> {
    for (let tries = 0; ; tries++) {
      const state = await this.settled();
      if (state.link === 'ready') return;
      if (tries === 5) throw new Error(`it does not come back: ${JSON.stringify(state.problem)}`);
      const { code = 'none' } = state.problem ?? {};
      if (state.firmware.match === 'none') this.emptied += 1;
      const wants = state.firmware.match === 'none' ? 'writeFirmware' : 'connect';
      const outcome = await withPatience(
        this.call(wants, { board: BOARD, port: this.device.path }),
        `${wants} (${code})`,
      );
      if (!outcome.ok && outcome.problem.code === 'hostFailed') throw new Error(`${outcome.problem.detail}`);
    }
  }

  /** What the board starts with is the old or the new, whole. */
  private async checkKept(): Promise<void> {
    const state = await this.settled();
    const ms = state.keptDials?.[0]?.[0];
    if (ms === undefined || !this.kept.includes(ms)) {
      throw new Error(`it keeps ${state.kept}, ${ms} ms; expected one of ${this.kept.join(', ')}`);
    }
    this.kept = [ms];
  }

  /** A check that was cut off holds no lamps back, and what was noted in it is there. */
  private async checkShowing(): Promise<void> {
    const { checking, check } = await this.settled();
    if (checking) throw new Error('a lamp check still holds the lamps');
    if (this.noted !== null && check?.by !== this.noted) {
      throw new Error(`the check by ${this.noted} is lost; there is ${check?.by}`);
    }
  }

  /** The state of the board once nothing is under way and nothing is looked for. */
  private async settled(): Promise<BoardState> {
    const until = performance.now() + PATIENCE_MS;
    for (;;) {
      const { boards } = await this.must('look', {});
      const state = boards.find(({ board }) => board === BOARD);
      if (!state) throw new Error('the board has gone from the layout');
      const isReady = state.link === 'ready' && state.running !== 'unknown' && state.kept !== 'unknown';
      if (!state.task && (state.link === 'off' || isReady)) return state;
      if (performance.now() > until) throw new Error(`it does not settle: ${JSON.stringify(state)}`);
      await pause(50);
    }
  }

  private async must<N extends CallName>(name: N, args: CallArgs<N>): Promise<CallResults[N]> {
    const outcome = await withPatience(this.call(name, args), name);
    if (!outcome.ok) throw new Error(`${name}: ${JSON.stringify(outcome.problem)}`);
    return outcome.value;
  }

  private call<N extends CallName>(name: N, args: CallArgs<N>): Promise<Outcome<CallResults[N]>> {
    return answerCall(this.host.handlers, name, args) as Promise<Outcome<CallResults[N]>>;
  }
}

/** The log as it stands on the disk. */
function readLog(folder: string): LogEntry[] {
  const sessions = join(folder, 'sessions');
  const [name = ''] = readdirSync(sessions);
  return readFileSync(join(sessions, name), 'utf8')
    .trim()
    .split('\n')
    .map((line) => JSON.parse(line));
}

function pause(ms: number): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, ms));
}

async function withPatience<T>(work: Promise<T>, what: string): Promise<T> {
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise<never>((_, reject) => {
    timer = setTimeout(() => reject(new Error(`${what} does not end`)), PATIENCE_MS);
  });
  try {
    return await Promise.race([work, late]);
  } finally {
    clearTimeout(timer);
  }
}
