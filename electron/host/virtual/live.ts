/**
 * A virtual board that runs by itself in a worker thread: a byte stream like any
 * port, with a power switch, pins and a speed.
 */
import { Worker } from 'node:worker_threads';
import type { Glow } from '../../../shared/electrics/model.ts';
import type { Chip } from '../../../shared/table/format.ts';
import type { Chain } from '../../../shared/table/model.ts';
import { type ByteStream, StreamEnds } from '../stream.ts';
import type { CircuitPlan } from './circuit.ts';
import type { FromWorker, LevelChange, Speed, ToWorker, WorkerStart } from './messages.ts';

export interface LiveBoardOptions {
  readonly chip: Chip;
  readonly flash: Uint8Array;
  readonly eepromFile?: string | null;
  /** Supply in millivolts, 5,000 by default. */
  readonly supplyMillivolts?: number;
  /** 1 by default. */
  readonly speed?: Speed;
}

export class LiveBoard implements ByteStream {
  onLevels: (changes: readonly LevelChange[]) => void = () => {};
  /** By load and head; null without a circuit. */
  onGlow: (glow: readonly (readonly Glow[])[] | null) => void = () => {};
  onPower: (powered: boolean) => void = () => {};
  /** Board time in cycles of 16 MHz, a tenth of a second old at most. */
  cycles = 0;
  powered = false;
  /** The thread runs, or has ended: on a busy computer loading it takes seconds. */
  readonly ready: Promise<void>;
  private begun: () => void = () => {};
  private readonly ends = new StreamEnds();
  private readonly worker: Worker;
  private readonly gone: Promise<void>;

  /** Starts without power. */
  constructor(options: LiveBoardOptions) {
    const start: WorkerStart = {
      chip: options.chip,
      flash: options.flash,
      eepromFile: options.eepromFile ?? null,
      supplyMillivolts: options.supplyMillivolts ?? 5000,
      speed: options.speed ?? 1,
    };
    this.ready = new Promise((resolve) => {
      this.begun = resolve;
    });
    this.worker = startWorker(start);
    this.worker.on('message', (message: FromWorker) => this.receive(message));
    this.worker.on('error', (error) => this.ends.end(`The virtual board failed: ${error.message}`));
    this.gone = new Promise((resolve) => {
      this.worker.on('exit', () => {
        this.ends.end('The virtual board was closed.');
        this.begun();
        resolve();
      });
    });
  }

  write(bytes: Uint8Array): void {
    this.tell({ type: 'bytes', bytes });
  }

  onData(listener: (bytes: Uint8Array) => void): void {
    this.ends.onData(listener);
  }

  onClose(listener: (cause: string) => void): void {
    this.ends.onClose(listener);
  }

  /** Its EEPROM is on disk when this is done. */
  async close(): Promise<void> {
    this.tell({ type: 'quit' });
    await this.gone;
  }

  power(on: boolean): void {
    this.tell({ type: 'power', on });
  }

  reset(): void {
    this.tell({ type: 'reset' });
  }

  setSpeed(speed: Speed): void {
    this.tell({ type: 'speed', speed });
  }

  setInput(pin: number, level: 0 | 1 | null): void {
    this.tell({ type: 'input', pin, level });
  }

  connectChain(wiring: Chain | null): void {
    this.tell({ type: 'chain', wiring });
  }

  /** Wires lamps to the outputs, or takes them away. */
  connectCircuit(plan: CircuitPlan | null): void {
    this.tell({ type: 'circuit', plan });
  }

  private tell(message: ToWorker): void {
    if (!this.ends.ended) this.worker.postMessage(message);
  }

  private receive(message: FromWorker): void {
    if (message.type === 'bytes') this.ends.data(message.bytes);
    else if (message.type === 'levels') this.onLevels(message.changes);
    else if (message.type === 'glow') this.onGlow(message.glow);
    else if (message.type === 'time') {
      this.begun();
      this.cycles = message.cycles;
      if (this.powered === message.powered) return;
      this.powered = message.powered;
      this.onPower(message.powered);
    } else this.ends.end(`The virtual board failed: ${message.cause}`);
  }
}

/** Run from source, the worker first loads the loader for TypeScript; a built app has plain JavaScript beside this file. */
function startWorker(workerData: WorkerStart): Worker {
  const script = import.meta.url.endsWith('.ts') ? './worker-from-source.mjs' : './worker.js';
  return new Worker(new URL(script, import.meta.url), { workerData, execArgv: [] });
}
