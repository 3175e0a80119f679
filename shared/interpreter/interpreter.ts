/**
 * The reference interpreter: what the firmware must do with a table, written
 * from firmware/PROTOCOL.md, chapter 4, and from nothing else.
 */
import { FAULT_RETURN } from '../table/format.ts';
import type { BoardTable, DialLimits } from '../table/model.ts';
import { nearestTime } from '../table/time.ts';
import { GroupClock } from './group-clock.ts';
import { Inputs, type Press } from './inputs.ts';
import { type Master, SiteLamps } from './lamps.ts';
import { type Fault, Site } from './site.ts';

export type LampOverride = 'auto' | 'on' | 'off';
export type HostMaster = Master | 'auto';

/** What happens, as it happens. `ms` is the board time, 32 bits. */
export interface Listener {
  lamps?(ms: number, lit: readonly boolean[]): void;
  row?(ms: number, site: number, row: number): void;
  demand?(ms: number, input: number): void;
  fault?(ms: number, site: number, fault: Fault): void;
}

/**
 * Runs one table. Requests (dials, presses, steps ...) count from the next tick
 * on, like those that a board hears between two ticks. The table must be
 * consistent (`checkTable`); numbers of sites, inputs and lamps that do not
 * exist are ignored.
 */
export class Interpreter {
  readonly table: BoardTable;
  readonly #listener: Listener;
  readonly #inputs: Inputs;
  readonly #groups: readonly GroupClock[];
  readonly #sites: readonly Site[];
  readonly #siteLamps: readonly SiteLamps[];
  /** Lamps from here on are indicators and sync outputs. */
  readonly #spare: number;
  readonly #overrides: LampOverride[];
  #hostMaster: HostMaster = 'auto';
  #paused = false;
  #now = 0;
  #ran = 0;
  #lit: boolean[];
  /** Someone asked for something since the last tick: the next one must be looked at. */
  #touched = true;

  constructor(table: BoardTable, listener: Listener = {}) {
    this.table = table;
    this.#listener = listener;
    this.#inputs = new Inputs(table.inputs, (input) => listener.demand?.(this.#now, input));
    this.#groups = table.groups.map((group) => new GroupClock(group.cycle.value));
    this.#overrides = table.lamps.map(() => 'auto');
    this.#lit = table.lamps.map(() => false);
    const events = {
      row: (site: number, row: number) => listener.row?.(this.#now, site, row),
      fault: (site: number, fault: Fault) => listener.fault?.(this.#now, site, fault),
      back: (site: number) => this.#siteLamps[site]?.start(),
    };
    this.#sites = table.sites.flatMap((binding, index) => {
      const program = table.programs[binding.program];
      const group = binding.group === null ? null : (this.#groups[binding.group] ?? null);
      return program ? [new Site(index, { binding, program, inputs: this.#inputs, group, events })] : [];
    });
    let first = 0;
    this.#siteLamps = this.#sites.map((site) => {
      const lamps = new SiteLamps(site, first);
      first += site.program.lamps.length;
      return lamps;
    });
    this.#spare = first;
  }

  /** Starts the table afresh at a board time (any whole number; 32 bits of it count). Dials keep their values. */
  start(now = 0): void {
    this.#now = now >>> 0;
    this.#ran = 0;
    this.#inputs.start();
    this.#overrides.fill('auto');
    this.#paused = false;
    for (const site of this.#sites) site.reset();
    this.#lit.fill(false);
    this.again();
  }

  /** One ms of board time. */
  tick(): void {
    this.#touched = false;
    this.#now = (this.#now + 1) >>> 0;
    this.#ran += 1;
    if (this.#ran % FAULT_RETURN.span === 0) for (const site of this.#sites) site.forgive();
    this.#inputs.tick();
    for (const [index, group] of this.#groups.entries()) {
      const syncIn = this.table.groups[index]?.syncIn ?? null;
      if (this.#paused) group.stand();
      else group.tick(this.#inputs.rose(syncIn) ? (this.table.inputs[syncIn ?? 0]?.debounce ?? 0) : null);
    }
    for (const site of this.#sites) site.tick(this.#paused);
    this.#showLamps();
  }

  /** Runs so many ms; stretches in which provably nothing happens are gone over in one stride. */
  run(ms: number): void {
    let left = ms;
    while (left > 0) {
      const stride = Math.min(left, this.#ticksToEvent()) - 1;
      if (stride > 0) this.#skip(stride);
      this.tick();
      left -= Math.max(0, stride) + 1;
    }
  }

  #ticksToEvent(): number {
    if (this.#touched || !this.#inputs.isSteady()) return 1;
    let ticks = FAULT_RETURN.span - (this.#ran % FAULT_RETURN.span);
    if (!this.#paused) for (const group of this.#groups) ticks = Math.min(ticks, group.ticksToEvent());
    for (const site of this.#sites)
      if (site.fault !== 'none' || !site.isStill(this.#paused)) ticks = Math.min(ticks, site.ticksToEvent());
    for (const lamps of this.#siteLamps) ticks = Math.min(ticks, lamps.ticksToEvent());
    return ticks;
  }

  #skip(ticks: number): void {
    this.#now = (this.#now + ticks) >>> 0;
    this.#ran += ticks;
    if (!this.#paused) for (const group of this.#groups) group.skip(ticks);
    for (const site of this.#sites) if (site.fault !== 'none' || !site.isStill(this.#paused)) site.skip(ticks);
    for (const lamps of this.#siteLamps) lamps.skip(ticks);
  }

  #showLamps(): void {
    const master = this.master;
    const lit = this.table.lamps.map(() => false);
    for (const lamps of this.#siteLamps) lamps.tick(master, lit);
    const light = (lamp: number | null) => {
      if (lamp !== null && lamp >= this.#spare) lit[lamp] = true;
    };
    if (master !== 'off' && master !== 'safe') {
      for (const [index, input] of this.table.inputs.entries()) if (this.#inputs.demand(index)) light(input.indicator);
    }
    for (const [index, group] of this.#groups.entries()) {
      if (group.isPulsing) light(this.table.groups[index]?.syncOut ?? null);
    }
    for (const [lamp, override] of this.#overrides.entries()) if (override !== 'auto') lit[lamp] = override === 'on';
    const isChanged = lit.some((isLit, lamp) => isLit !== this.#lit[lamp]);
    this.#lit = lit;
    if (isChanged) this.#listener.lamps?.(this.#now, lit);
  }

  /** Board time, ms, 32 bits unsigned. */
  get now(): number {
    return this.#now;
  }

  /** Ms since the start; does not wrap. */
  get ran(): number {
    return this.#ran;
  }

  /** For each lamp of the board whether it is lit, overrides included. */
  get lit(): readonly boolean[] {
    return this.#lit;
  }

  /** The master state in force. */
  get master(): Master {
    if (this.#hostMaster !== 'auto') return this.#hostMaster;
    if (this.#inputs.level(this.table.offInput)) return 'off';
    return this.#inputs.level(this.table.nightInput) ? 'night' : 'run';
  }

  get levels(): readonly boolean[] {
    return this.#inputs.levels;
  }

  get demands(): readonly boolean[] {
    return this.#inputs.demands;
  }

  row(site: number): number {
    return this.#sites[site]?.row ?? 0;
  }

  /** Ms since the row began; negative before a delayed start. */
  elapsed(site: number): number {
    return this.#sites[site]?.elapsed ?? 0;
  }

  fault(site: number): Fault {
    return this.#sites[site]?.fault ?? 'none';
  }

  /** Dial in force, ms, or null when there is none. */
  dial(site: number, dial: number): number | null {
    return this.#sites[site]?.dials[dial] ?? null;
  }

  /** Sets a dial; the value now in force, ms, or null when it is refused. */
  setDial(site: number, dial: number, ms: number): number | null {
    const target = this.#sites[site];
    const value = withinLimits(target?.program.dials[dial], ms);
    if (!target || value === null) return null;
    target.dials[dial] = value;
    this.#touched = true;
    return value;
  }

  /** Sets the cycle of a group; the value now in force, ms, or null when it is refused. */
  setCycle(group: number, ms: number): number | null {
    const clock = this.#groups[group];
    const value = withinLimits(this.table.groups[group]?.cycle, ms);
    if (!clock || value === null) return null;
    clock.cycle = value;
    this.#touched = true;
    return value;
  }

  /** What a pin says, polarity applied: true is active. */
  setRaw(input: number, active: boolean): void {
    this.#inputs.setRaw(input, active);
    this.#touched = true;
  }

  press(input: number, press: Press): void {
    this.#inputs.press(input, press);
    this.#touched = true;
  }

  override(lamp: number | 'all', override: LampOverride): void {
    if (lamp === 'all') this.#overrides.fill(override);
    else if (lamp >= 0 && lamp < this.#overrides.length) this.#overrides[lamp] = override;
    this.#touched = true;
  }

  setMaster(master: HostMaster): void {
    this.#hostMaster = master;
    this.#touched = true;
  }

  hold(site: number, held: boolean): void {
    const target = this.#sites[site];
    if (target) target.held = held;
    this.#touched = true;
  }

  pause(): void {
    this.#paused = true;
    this.#touched = true;
  }

  /** Ends a pause. */
  runOn(): void {
    this.#paused = false;
    this.#touched = true;
  }

  /** Ends the running interval of a site in the next tick; the row that ends. */
  step(site: number): number | null {
    const target = this.#sites[site];
    if (!target) return null;
    target.stepped = true;
    this.#touched = true;
    return target.row;
  }

  /** Starts a site, or all groups and sites, from the beginning. Ends a fault. */
  again(site?: number): void {
    if (site === undefined) for (const group of this.#groups) group.start();
    for (const target of this.#sites) {
      if (site !== undefined && target.index !== site) continue;
      target.again();
      this.#siteLamps[target.index]?.start();
    }
    this.#touched = true;
  }

  /** The host fell silent: overrides, presses, holds, pause and the host's master state end. */
  release(): void {
    this.#overrides.fill('auto');
    for (const input of this.table.inputs.keys()) this.#inputs.press(input, 'auto');
    for (const site of this.#sites) site.held = false;
    this.#hostMaster = 'auto';
    this.#paused = false;
    this.#touched = true;
  }
}

function withinLimits(limits: DialLimits | undefined, ms: number): number | null {
  return limits && ms >= limits.min && ms <= limits.max ? nearestTime(ms) : null;
}
