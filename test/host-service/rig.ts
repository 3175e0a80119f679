import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import { BoardBook } from '../../electron/host/book/board-book.ts';
import { CheckBook } from '../../electron/host/checks/check-book.ts';
import type { OpenedLoader } from '../../electron/host/loader/line.ts';
import type { WriteFirmware } from '../../electron/host/loader/types.ts';
import { SessionLog } from '../../electron/host/log/session-log.ts';
import { openDocument } from '../../electron/host/service/document.ts';
import { EXAMPLE } from '../../electron/host/service/example.ts';
import type { Opened, OpenProblem, SerialPorts } from '../../electron/host/service/ports.ts';
import type { VirtualUnit } from '../../electron/host/service/virtual-boards.ts';
import { WorkbenchHost, type WorkbenchOptions } from '../../electron/host/service/workbench.ts';
import type { CircuitPlan } from '../../electron/host/virtual/circuit.ts';
import type { Chip } from '../../shared/table/format.ts';
import type {
  BoardState,
  CallArgs,
  CallName,
  CallResults,
  EventName,
  Events,
  LogEntry,
  Outcome,
} from '../../shared/workbench/contract.ts';
import { answerCall } from '../../shared/workbench/serve.ts';
import { FakeClock } from '../host/fake-clock.ts';
import type { FakeStream } from '../host/fake-stream.ts';
import { TableBoard } from './table-board.ts';

/** Serial ports in the hands of the test. */
export class FakePorts implements SerialPorts {
  readonly plugged = new Map<string, TableBoard | OpenProblem>();
  /** Set to keep openings waiting. */
  gate: Promise<void> = Promise.resolve();
  /** Every path that somebody wanted to open, in order. */
  readonly opened: string[] = [];
  /** How often it was asked what is there. */
  looks = 0;
  private readonly streams = new Map<string, FakeStream>();

  get openings(): number {
    return this.opened.length;
  }

  async list() {
    return [...this.plugged.keys()].map((path) => ({ path, label: 'serial port', likely: true, virtual: false }));
  }

  async open(path: string): Promise<Opened> {
    this.opened.push(path);
    await this.gate;
    const there = this.plugged.get(path);
    if (!there) return { ok: false, error: { kind: 'missing', detail: `cannot open ${path}` } };
    if (!(there instanceof TableBoard)) return { ok: false, error: there };
    const { stream } = there.plug();
    this.streams.set(path, stream);
    return { ok: true, stream };
  }

  async openLoader(path: string): Promise<OpenedLoader> {
    return { ok: false, error: { kind: 'missing', detail: `cannot open ${path}` } };
  }

  async present() {
    this.looks += 1;
    return [...this.plugged.keys()];
  }

  /** The device goes, and the library does not tell. */
  vanish(path: string): void {
    this.plugged.delete(path);
  }

  pull(path: string): void {
    this.plugged.delete(path);
    this.streams.get(path)?.unplug();
  }
}

class FakeUnit implements VirtualUnit {
  readonly ready = Promise.resolve();
  readonly chip: Chip;
  readonly board = new TableBoard();
  powered = false;
  speed = 1;
  circuit: CircuitPlan | null = null;
  constructor(chip: Chip) {
    this.chip = chip;
    this.board.chip = chip;
  }
  power(on: boolean): void {
    if (on === this.powered) return;
    this.powered = on;
    if (on) return;
    this.board.powerCut();
    this.board.lines.at(-1)?.stream.unplug();
  }
  setSpeed(factor: number): void {
    this.speed = factor;
  }
  connectChain(): void {}
  connectCircuit(plan: CircuitPlan | null): void {
    this.circuit = plan;
  }
  onGlow: VirtualUnit['onGlow'] = () => {};
  open(): Opened {
    if (!this.powered) return { ok: false, error: { kind: 'off', detail: 'switched off' } };
    return { ok: true, stream: this.board.plug().stream };
  }
  async close(): Promise<void> {}
}

export const PORT = '/dev/ttyUSB0';

/** `data`: the folder of another day; default: a fresh one. */
export function rig(data?: string, more: Partial<WorkbenchOptions> = {}) {
  const clock = new FakeClock();
  const ports = new FakePorts();
  const loader: { write: WriteFirmware } = {
    write: async () => ({ ok: false, error: { kind: 'noLoader', pulsed: true, heardBytes: false } }),
  };
  const units = new Map<string, FakeUnit>();
  const folder = data ?? mkdtempSync(join(tmpdir(), 'amberwick-log-'));
  const now = () => new Date(clock.now());
  const log = new SessionLog(folder, now);
  onTestFinished(() => {
    log.close();
    rmSync(folder, { recursive: true, force: true });
  });
  const host = new WorkbenchHost({
    shell: 'browser',
    version: '1.2.3',
    clock,
    now,
    log,
    book: new BoardBook(join(folder, 'boards'), now),
    checks: new CheckBook(join(folder, 'checks')),
    writeFirmware: (options) => loader.write(options),
    images: () => ({ flash: Uint8Array.of(0x0c, 0x94), version: '1.1.0' }),
    serial: ports,
    makeVirtual: (board, chip) => {
      const unit = new FakeUnit(chip);
      units.set(board, unit);
      return { ok: true, value: unit };
    },
    ...more,
  });
  const told: { name: EventName; data: Events[EventName] }[] = [];
  host.telling((name, data) => told.push({ name, data }));
  const call = <N extends CallName>(name: N, args: CallArgs<N>): Promise<Outcome<CallResults[N]>> =>
    answerCall(host.handlers, name, args) as Promise<Outcome<CallResults[N]>>;
  const board = (id = 'town'): BoardState => {
    const found = [...told].reverse().find(({ name, data }) => name === 'board' && (data as BoardState).board === id);
    if (!found) throw new Error(`nothing was told of ${id}`);
    return found.data as BoardState;
  };
  const logged = (): string[] => log.entries.map(({ text }) => text);
  /** The log as it stands on the disk. */
  const logFile = (): LogEntry[] =>
    readFileSync(log.file, 'utf8')
      .trim()
      .split('\n')
      .map((line) => JSON.parse(line));
  return { folder, clock, ports, loader, units, host, call, told, board, log, logged, logFile };
}

export type Rig = ReturnType<typeof rig>;

/** A real board on the first port that runs and keeps the example. */
export async function connected(change: (board: TableBoard) => void = () => {}, data?: string) {
  const bench = rig(data);
  const real = new TableBoard();
  real.run = exampleImage();
  real.kept = real.run;
  change(real);
  bench.ports.plugged.set(PORT, real);
  const outcome = await bench.call('connect', { board: 'town', port: PORT });
  return { ...bench, real, outcome };
}

export function exampleImage(edit: (text: string) => string = (text) => text): Uint8Array {
  const opened = openDocument('example.json', edit(EXAMPLE.text), 1);
  const image = opened.ok ? opened.value.boards[0]?.image : null;
  if (!image) throw new Error('no image');
  return image.bytes;
}
