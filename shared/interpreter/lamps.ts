/** What the lamps of one site show (PROTOCOL.md, chapter 4, steps 6 and 7). */
import { DEFAULT_FLASH_MS } from '../table/format.ts';
import type { LampState } from '../table/model.ts';
import type { Site } from './site.ts';

export type Master = 'run' | 'night' | 'off' | 'safe';

/** The states that a site shows, or null for all dark. */
export function shownStates(site: Site, master: Master): readonly LampState[] | null {
  const { program, binding } = site;
  if (master === 'off') return null;
  if (master === 'safe') return program.safe;
  if (site.fault !== 'none') return site.isClearing ? program.safe : program.fault;
  if (master === 'night' && binding.atNight !== 'run') {
    return binding.atNight === 'dark' ? null : program[binding.atNight];
  }
  return site.interval?.states ?? null;
}

function canFlash(states: readonly LampState[] | null): boolean {
  return states?.some((state) => state === 'flash' || state === 'alternate') ?? false;
}

/** The lamps of one site, with the flashing of their own. */
export class SiteLamps {
  /** Number of the site's first lamp on the board. */
  readonly first: number;
  readonly #site: Site;
  /** The part of the flash: lit or dark; null while nothing flashes. */
  #part: 'lit' | 'dark' | null = null;
  /** Since the part began, ms. */
  #elapsed = 0;

  constructor(site: Site, first: number) {
    this.#site = site;
    this.first = first;
  }

  /** The next flashing begins with a lit part. */
  start(): void {
    this.#part = null;
  }

  /** One ms: sets the site's lamps in `lit`, the whole board's. */
  tick(master: Master, lit: boolean[]): void {
    const site = this.#site;
    const states = shownStates(site, master);
    this.#flash(states);
    this.#show(states, lit);
    const isLit = (lamp: number) => lit[this.first + lamp] === true;
    if (site.fault !== 'none' || !site.program.conflicts.some(([a, b]) => isLit(a) && isLit(b))) return;
    site.breach('conflict');
    const { fault } = site.program;
    if (!canFlash(fault)) this.#part = null;
    else if (this.#part === null) this.#begin('lit');
    this.#show(fault, lit);
  }

  #begin(part: 'lit' | 'dark'): void {
    this.#part = part;
    this.#elapsed = 0;
  }

  #flash(states: readonly LampState[] | null): void {
    if (!canFlash(states) || this.#site.isWaiting) this.#part = null;
    else if (this.#part === null) this.#begin('lit');
    else {
      this.#elapsed += 1;
      if (this.#elapsed >= this.#length(this.#part)) this.#begin(this.#part === 'lit' ? 'dark' : 'lit');
    }
  }

  /** Length of a part, ms. */
  #length(part: 'lit' | 'dark'): number {
    const { flash } = this.#site.program;
    if (!flash) return DEFAULT_FLASH_MS;
    return this.#site.dials[part === 'lit' ? flash.on : flash.off] ?? DEFAULT_FLASH_MS;
  }

  #show(states: readonly LampState[] | null, lit: boolean[]): void {
    for (let lamp = 0; lamp < this.#site.program.lamps.length; lamp += 1) {
      const state = states?.[lamp] ?? 'dark';
      lit[this.first + lamp] =
        state === 'lit' ||
        (state === 'flash' && this.#part === 'lit') ||
        (state === 'alternate' && this.#part === 'dark');
    }
  }

  /** Ticks until the part ends; never while nothing flashes. */
  ticksToEvent(): number {
    return this.#part === null ? Number.POSITIVE_INFINITY : Math.max(1, this.#length(this.#part) - this.#elapsed);
  }

  skip(ticks: number): void {
    this.#elapsed += ticks;
  }
}
