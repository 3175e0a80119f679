/** Lays all lamps of a board on its outputs anew: sites together, heads in order, pins that can do more left free. */
import type { Board } from '../outputs.ts';
import type { Layout } from '../schema.ts';
import { type Edited, noSuchBoard, refused } from './edit.ts';
import { type LampPlace, lampPlaces } from './lamps.ts';
import { boardOf, FIRST_BIT } from './numbers.ts';
import { lampOutputs } from './outputs.ts';
import { movesBetween, permute } from './permute.ts';
import { rankOf } from './rank.ts';

/** Outputs whose currents add up, such as a port group of the chip or one chip of the chain. */
export interface OutputGroup {
  readonly outputs: readonly number[];
  /** Most that they carry together, mA. */
  readonly limit: number;
  /** Which lamps count, by their paths, where the limit holds for one direction of current only. Default: all. */
  readonly counts?: (path: string) => boolean;
}

export interface AllocateOptions {
  readonly groups?: readonly OutputGroup[];
  /** Current of a lamp by its path, mA. All of a group are added: more than can be lit at once, so on the safe side. */
  readonly milliamps?: (path: string) => number;
}

/** Groups that carry less than this share of their limit are left as the order of the pins has them. */
const EASY = 0.5;

/**
 * Lamps on pins stay on pins, lamps on the chain stay on the chain; those without an output take what is left. Inputs and
 * the wires of the chain stay where they are. Allocating twice changes nothing more.
 */
export function allocate(layout: Layout, boardId: string, options: AllocateOptions = {}): Edited {
  const board = boardOf(layout, boardId);
  if (board === null) return noSuchBoard(boardId);
  const outputs = lampOutputs(layout, boardId).map(({ output }) => output);
  const lamps = lampPlaces(layout, boardId);
  if (lamps.length > outputs.length) return tooFew(layout, board, lamps.length, outputs.length);
  const isBit = (output: number): boolean => output >= FIRST_BIT;
  const room = { pins: outputs.filter((it) => !isBit(it)), bits: outputs.filter(isBit) };
  const onChain = chainLamps(lamps, room.pins.length, room.bits.length);
  const laying = new Laying(board, options);
  laying.lay(
    lamps.filter((lamp) => !onChain.has(lamp)),
    room.pins,
  );
  laying.lay(
    lamps.filter((lamp) => onChain.has(lamp)),
    room.bits,
  );
  const done = permute(layout, boardId, laying.chosen);
  if ('findings' in done) return done;
  const moved = movesBetween(layout, done.layout, boardId).length;
  if (moved === 0) return { layout, said: `Left the outputs of ${board.name} as they were.` };
  return { ...done, said: `Laid out ${board.name} anew: ${moved} of ${lamps.length} lamps moved.` };
}

/** Those that are on the chain now, then as many more as the pins have no room for, from the end. */
function chainLamps(lamps: readonly LampPlace[], pins: number, bits: number): ReadonlySet<LampPlace> {
  const chosen = new Set(lamps.filter(({ output }) => output !== null && output >= FIRST_BIT).slice(0, bits));
  for (const lamp of [...lamps].reverse()) {
    if (lamps.length - chosen.size <= pins) break;
    if (lamp.output === null) chosen.add(lamp);
  }
  for (const lamp of [...lamps].reverse()) {
    if (lamps.length - chosen.size <= pins) break;
    chosen.add(lamp);
  }
  return chosen;
}

function tooFew(layout: Layout, board: Board, lamps: number, outputs: number): Edited {
  return refused('too-few-outputs', `boards[${layout.boards.indexOf(board)}]`, {
    what: `${board.name} has ${lamps} lamps and ${outputs} outputs for lamps.`,
    why: 'Each lamp that lights by itself needs an output of its own.',
    cure: 'Let heads that always show the same share outputs, add a chain of shift registers, or take the larger board.',
  });
}

class Laying {
  readonly chosen = new Map<string, number>();
  readonly #board: Board;
  readonly #milliamps: (path: string) => number;
  readonly #groups: readonly OutputGroup[];
  /** Numbers of the groups of each output. */
  readonly #groupsOf = new Map<number, number[]>();
  /** Laid on each group so far, mA. */
  readonly #laid: number[];

  constructor(board: Board, { groups = [], milliamps = () => 0 }: AllocateOptions) {
    this.#board = board;
    this.#milliamps = milliamps;
    this.#groups = groups;
    this.#laid = groups.map(() => 0);
    groups.forEach(({ outputs }, group) => {
      for (const output of outputs) this.#groupsOf.set(output, [...(this.#groupsOf.get(output) ?? []), group]);
    });
  }

  /** Site by site, each on the run of outputs that costs least. */
  lay(lamps: readonly LampPlace[], room: readonly number[]): void {
    let free = [...room].sort((a, b) => this.#rank(a) - this.#rank(b) || a - b);
    let later = lamps.length;
    for (const site of bySite(lamps)) {
      later -= site.length;
      const run = this.#bestRun(site, free, later > 0);
      for (const [index, { path }] of site.entries()) this.chosen.set(path, run[index] ?? 0);
      for (const [group, milliamps] of this.#added(site, run)) {
        this.#laid[group] = (this.#laid[group] ?? 0) + milliamps;
      }
      free = free.filter((output) => !run.includes(output));
    }
  }

  #bestRun(site: readonly LampPlace[], free: readonly number[], hasLater: boolean): number[] {
    let best: { run: number[]; cost: readonly number[] } | null = null;
    for (let start = 0; start + site.length <= free.length; start++) {
      const run = free.slice(start, start + site.length);
      const hole = hasLater && start > 0 ? 1 : 0;
      const rank = run.reduce((sum, output) => sum + this.#rank(output), 0);
      const cost = [rank, this.#burden(site, run), breaks(run), hole, start];
      if (best === null || isLess(cost, best.cost)) best = { run, cost };
    }
    return best?.run ?? [];
  }

  #rank(output: number): number {
    return rankOf(this.#board.chip, output);
  }

  /** What the run brings to each group, mA. */
  #added(site: readonly LampPlace[], run: readonly number[]): Map<number, number> {
    const added = new Map<number, number>();
    for (const [index, { path }] of site.entries()) {
      for (const group of this.#groupsOf.get(run[index] ?? -1) ?? []) {
        if (this.#groups[group]?.counts?.(path) === false) continue;
        added.set(group, (added.get(group) ?? 0) + this.#milliamps(path));
      }
    }
    return added;
  }

  /** The fullest of its groups after this run, in tenths of the limit above what is easily carried. */
  #burden(site: readonly LampPlace[], run: readonly number[]): number {
    let fullest = 0;
    for (const [group, milliamps] of this.#added(site, run)) {
      const share = ((this.#laid[group] ?? 0) + milliamps) / (this.#groups[group]?.limit ?? 1);
      fullest = Math.max(fullest, Math.ceil((share - EASY) * 10));
    }
    return fullest;
  }
}

/** Places where a run goes on elsewhere. */
function breaks(run: readonly number[]): number {
  return run.slice(1).filter((output, index) => output !== (run[index] ?? 0) + 1).length;
}

function isLess(a: readonly number[], b: readonly number[]): boolean {
  const at = a.findIndex((value, index) => value !== b[index]);
  return at >= 0 && (a[at] ?? 0) < (b[at] ?? 0);
}

/** Runs of lamps of one site, in the order of the document; indicators and sync outputs each by themselves. */
function bySite(lamps: readonly LampPlace[]): LampPlace[][] {
  const sites: LampPlace[][] = [];
  for (const lamp of lamps) {
    const last = sites.at(-1);
    if (last !== undefined && lamp.site !== null && last[0]?.site === lamp.site) last.push(lamp);
    else sites.push([lamp]);
  }
  return sites;
}
