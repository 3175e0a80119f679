/** The virtual boards: one for each board of the layout, each with its own memory, switch and speed. */
import { join } from 'node:path';
import type { Glow } from '../../../shared/electrics/model.ts';
import type { Chip } from '../../../shared/table/format.ts';
import type { Chain } from '../../../shared/table/model.ts';
import { type ByteStream, StreamEnds } from '../stream.ts';
import type { CircuitPlan } from '../virtual/circuit.ts';
import { loadImage } from '../virtual/images.ts';
import { LiveBoard } from '../virtual/live.ts';
import type { LevelChange } from '../virtual/messages.ts';
import type { Opened } from './ports.ts';

const PREFIX = 'virtual:';

export function virtualPath(board: string): string {
  return `${PREFIX}${board}`;
}

/** Board whose virtual board a path names; null for a real port. */
export function virtualOwner(path: string): string | null {
  return path.startsWith(PREFIX) ? path.slice(PREFIX.length) : null;
}

/** What a virtual board can do beside being a port. */
export interface VirtualUnit {
  readonly chip: Chip;
  readonly powered: boolean;
  /** It can be talked to, or never will be. */
  readonly ready: Promise<void>;
  /** 1 is real time, 0 as fast as it goes. */
  readonly speed: number;
  power(on: boolean): void;
  setSpeed(factor: number): void;
  connectChain(chain: Chain | null): void;
  /** Wires lamps to the outputs, or takes them away. */
  connectCircuit(plan: CircuitPlan | null): void;
  /** The lamps of the circuit show something else: by load and head; null without a circuit. */
  onGlow: (glow: readonly (readonly Glow[])[] | null) => void;
  /** One connection at a time; it ends with the power. */
  open(): Opened;
  close(): Promise<void>;
}

export type VirtualMade =
  | { readonly ok: true; readonly value: VirtualUnit }
  | { readonly ok: false; readonly error: string };

/** Makes the virtual board of a layout's board, without power. */
export type VirtualMaker = (board: string, chip: Chip) => VirtualMade;

/** Hears every change at the pins of a virtual board, as a probe on the wires would. */
export type PinWatch = (board: string, changes: readonly LevelChange[]) => void;

/** They run the shipped firmware in worker threads and keep their EEPROMs under `folder`. */
export function virtualMaker(folder: string, onLevels: PinWatch = () => {}): VirtualMaker {
  return (board, chip) => {
    const image = loadImage(chip);
    if (!image.ok) return image;
    const eepromFile = join(folder, `${board}-${chip}.eeprom`);
    const live = new LiveBoard({ chip, flash: image.flash, eepromFile });
    live.onLevels = (changes) => onLevels(board, changes);
    return { ok: true, value: new EmulatedUnit(chip, live) };
  };
}

class EmulatedUnit implements VirtualUnit {
  readonly chip: Chip;
  readonly ready: Promise<void>;
  powered = false;
  speed = 1;
  onGlow: VirtualUnit['onGlow'] = () => {};
  private readonly live: LiveBoard;
  private connection: Connection | null = null;
  private stopped: string | null = null;

  constructor(chip: Chip, live: LiveBoard) {
    this.chip = chip;
    this.live = live;
    this.ready = live.ready;
    live.onGlow = (glow) => this.onGlow(glow);
    live.onData((bytes) => this.connection?.ends.data(bytes));
    live.onClose((cause) => {
      this.stopped = cause;
      this.powered = false;
      this.connection?.ends.end(cause);
    });
  }

  power(on: boolean): void {
    if (on === this.powered || this.stopped !== null) return;
    this.powered = on;
    this.live.power(on);
    if (!on) this.connection?.ends.end('The virtual board was switched off.');
  }

  setSpeed(factor: number): void {
    this.speed = factor;
    this.live.setSpeed(factor === 0 ? 'full' : factor);
  }

  connectChain(chain: Chain | null): void {
    this.live.connectChain(chain);
  }

  connectCircuit(plan: CircuitPlan | null): void {
    this.live.connectCircuit(plan);
  }

  open(): Opened {
    if (this.stopped !== null) return { ok: false, error: { kind: 'stopped', detail: this.stopped } };
    if (!this.powered) return { ok: false, error: { kind: 'off', detail: 'switched off' } };
    this.connection?.ends.end('Opened a second time.');
    this.connection = new Connection((bytes) => this.live.write(bytes));
    return { ok: true, stream: this.connection };
  }

  close(): Promise<void> {
    return this.live.close();
  }
}

class Connection implements ByteStream {
  readonly ends = new StreamEnds();
  private readonly send: (bytes: Uint8Array) => void;

  constructor(send: (bytes: Uint8Array) => void) {
    this.send = send;
  }

  write(bytes: Uint8Array): void {
    if (!this.ends.ended) this.send(bytes);
  }

  onData(listener: (bytes: Uint8Array) => void): void {
    this.ends.onData(listener);
  }

  onClose(listener: (cause: string) => void): void {
    this.ends.onClose(listener);
  }

  async close(): Promise<void> {
    this.ends.end('The port was closed.');
  }
}
