/** One bit of the RAM of a running board turned over, and what comes of it: the shipped image in the emulator. */
import type { BoardTable } from '../../shared/table/model.ts';
import { CYCLES_PER_MS, imageOf, Rig } from '../timing/rig.ts';

/** Bytes of `struct site`, and where some fields stand in it. */
export const SITE_BYTES = 20;
const [BEGIN, WAIT, ROW_AT, FLAGS] = [0, 4, 10, 19];
const [DELAYED, AT_FAULT] = [0x01, 0x80];
/** Lamps change together within 50 microseconds. */
const TOGETHER = CYCLES_PER_MS / 20;
/** A look at every site, and 10 s from a fault back to the start row; a little more, ms. */
const LOOK = 1100;
const BACK = 10_200;

/** Lamps of the board that the table forbids to be lit together. */
function conflictsOf(table: BoardTable): [number, number][] {
  let first = 0;
  return table.sites.flatMap(({ program }) => {
    const of = table.programs[program];
    const pairs = (of?.conflicts ?? []).map(([a, b]): [number, number] => [first + a, first + b]);
    first += of?.lamps.length ?? 0;
    return pairs;
  });
}

export class FlipRig {
  readonly rig: Rig;
  readonly image: Uint8Array;
  /** Pairs that were lit together for longer than a change takes. */
  readonly together: string[] = [];
  private readonly pairs: readonly [number, number][];
  private readonly lit: boolean[];
  private looked = 0;

  constructor(table: BoardTable, eeprom?: Uint8Array) {
    this.rig = eeprom ? new Rig(table, eeprom) : new Rig(table);
    this.image = imageOf(table);
    this.pairs = conflictsOf(table);
    this.lit = table.lamps.map(() => false);
    this.rig.board.power(true);
    this.run(400);
  }

  run(ms: number): void {
    this.rig.runMs(ms);
    for (const { cycles, lamp, lit } of this.rig.takeEdges()) {
      this.lookForPairs(cycles);
      this.lit[lamp] = lit;
    }
    this.lookForPairs(this.rig.board.cycles);
  }

  private lookForPairs(until: number): void {
    if (until - this.looked > TOGETHER)
      for (const [a, b] of this.pairs) if (this.lit[a] && this.lit[b]) this.together.push(`${a} and ${b} at ${until}`);
    this.looked = until;
  }

  private word(at: number, bytes: number): number {
    let value = 0;
    for (let i = bytes; i--; ) value = value * 256 + this.rig.board.peek(at + i);
    return value;
  }

  private turn(at: number, bit: number): void {
    this.rig.board.poke(at, this.rig.board.peek(at) ^ (1 << bit));
  }

  get deeds(): number {
    return this.rig.board.peek(this.rig.address('guard_deeds')) >> 4;
  }

  /** Turns a bit of the running image; how long until the table was started anew, ms, or null within 3 s. */
  turnImage(at: number, bit: number): number | null {
    const { rig } = this;
    rig.board.poke(rig.address('guard_deeds'), 0);
    this.turn(rig.address('image_bytes') + at, bit);
    for (let ms = 0; ms < 3000; ms += 5) {
      this.run(5);
      if (this.deeds) return ms + 5;
    }
    return null;
  }

  /** The image in RAM is the one that is kept. */
  isWhole(): boolean {
    const at = this.rig.address('image_bytes');
    return this.image.every((byte, i) => this.rig.board.peek(at + i) === byte);
  }

  /** Turns a bit of the state of a site; 'fault' where it was put to its fault aspect meanwhile. */
  turnSite(site: number, byte: number, bit: number): 'fault' | 'on' {
    const at = this.rig.address('sites') + SITE_BYTES * site;
    this.turn(at + byte, bit);
    let was: 'fault' | 'on' = 'on';
    for (let ms = 0; ms < LOOK; ms += 50) {
      this.run(50);
      if (this.rig.board.peek(at + FLAGS) & AT_FAULT) was = 'fault';
    }
    if (was === 'fault') this.run(BACK);
    return was;
  }

  /** What is wrong with a site that should run; null when its row ends in time. */
  trouble(site: number): string | null {
    const at = this.rig.address('sites') + SITE_BYTES * site;
    const flags = this.rig.board.peek(at + FLAGS);
    if (flags & AT_FAULT) return 'at fault still';
    const operation = (this.image[this.word(at + ROW_AT, 2)] ?? 15) & 15;
    if (operation > 5) return `at operation ${operation}`;
    if (operation > 0 || flags & DELAYED) return null;
    const elapsed = (this.word(this.rig.address('board_now'), 4) - this.word(at + BEGIN, 4)) >>> 0;
    const wait = this.word(at + WAIT, 4);
    return elapsed <= wait + 2 ? null : `${elapsed} ms in a row of ${wait}`;
  }

  /** Starts all sites anew; lamp edges of so many ms, in ms from the first one. */
  fresh(ms: number): string[] {
    this.rig.takeEdges();
    // Lamps go dark first, so that the first edges do not depend on what was lit.
    this.rig.ask('master', 'off');
    this.rig.runMs(50);
    this.rig.takeEdges();
    this.rig.ask('master', 'auto');
    this.rig.ask('again');
    this.rig.takeEdges();
    const now = this.rig.board.cycles;
    this.rig.runMs(ms);
    const edges = this.rig.takeEdges();
    this.looked = this.rig.board.cycles;
    this.rig.wires.lit.forEach((lit, lamp) => {
      this.lit[lamp] = lit;
    });
    const first = edges[0]?.cycles ?? now;
    return edges.map(({ cycles, lamp, lit }) => `${Math.round((cycles - first) / CYCLES_PER_MS)} ${lamp} ${lit}`);
  }
}
