/**
 * The wiring of one board while a person plans it: what hangs where, the lamp that is looked at, and one that is on
 * its way to another output, by pointer or by keyboard. Without any markup.
 */
import { computed, type ReadonlySignal, signal } from '@preact/signals';
import { loadsOf } from '../../shared/electrics/loads.ts';
import type { Load } from '../../shared/electrics/model.ts';
import type { Finding } from '../../shared/findings/finding.ts';
import type { Board } from '../../shared/layout/outputs.ts';
import type { Layout } from '../../shared/layout/schema.ts';
import type { Edited } from '../../shared/layout/wiring/edit.ts';
import { type LampPlace, lampPlaces } from '../../shared/layout/wiring/lamps.ts';
import { boardOf } from '../../shared/layout/wiring/numbers.ts';
import { type Output, outputsOf } from '../../shared/layout/wiring/outputs.ts';
import { assign, usedFor } from '../../shared/layout/wiring/permute.ts';
import { writeLayout } from '../../shared/layout/write.ts';
import type { CompiledBoard } from '../../shared/signals/compile.ts';
import type { Model } from './model.ts';

/** Everything about one board that the sheet shows. */
export interface Wired {
  readonly layout: Layout;
  readonly board: Board;
  readonly outputs: readonly Output[];
  readonly lamps: readonly LampPlace[];
  /** By path; none while the layout has errors that keep the board from being compiled. */
  readonly loads: ReadonlyMap<string, Load>;
  readonly compiled: CompiledBoard | null;
}

/** A lamp on its way. `over`: the output that it would go to. */
export interface Carried {
  readonly lamp: LampPlace;
  readonly over: number | null;
}

/** What the side of the sheet is about. */
export type Part = 'lamp' | 'currents' | 'outputs' | 'supply';

export class Wiring {
  /** Id of the board; the board at hand until another one is chosen. */
  readonly board: ReadonlySignal<string>;
  readonly wired: ReadonlySignal<Wired | null>;
  /** Path of the lamp that is looked at. */
  readonly chosen = signal<string | null>(null);
  readonly part = signal<Part>('lamp');
  readonly carried = signal<Carried | null>(null);
  /** For those who listen: what happened to the lamp on its way. */
  readonly said = signal('');
  readonly refusal = signal<readonly Finding[]>([]);
  readonly #model: Model;
  readonly #board = signal<string | null>(null);

  constructor(model: Model) {
    this.#model = model;
    this.board = computed(() => {
      const { layout } = model.open.value;
      const wanted = this.#board.value ?? model.boardAtHand.value?.id;
      return layout?.boards.find(({ id }) => id === wanted)?.id ?? layout?.boards[0]?.id ?? '';
    });
    this.wired = computed(() => {
      const { layout, boards } = model.open.value;
      return layout && wiredOf(layout, this.board.value, boards);
    });
  }

  take(board: string): void {
    this.letGo();
    this.chosen.value = null;
    this.#board.value = board;
  }

  /** The lamp on an output, or null. */
  lampOn(output: number): LampPlace | null {
    const use = this.wired.peek()?.outputs.find((it) => it.output === output)?.use;
    return use?.is === 'lamp' ? use.lamp : null;
  }

  lamp(path: string): LampPlace | null {
    return this.wired.peek()?.lamps.find((it) => it.path === path) ?? null;
  }

  look(path: string): void {
    this.chosen.value = path;
    this.part.value = 'lamp';
  }

  pickUp(path: string): void {
    const lamp = this.lamp(path);
    if (!lamp) return;
    this.refusal.value = [];
    this.look(path);
    this.carried.value = { lamp, over: lamp.output };
    this.said.value = `Picked up ${lamp.name}. Arrow keys choose an output, Enter puts it there, Escape leaves it.`;
  }

  /** Over an output, whatever it is used for; what would happen there is said. */
  hover(output: number | null): void {
    const carried = this.carried.peek();
    if (!carried || carried.over === output) return;
    this.carried.value = { ...carried, over: output };
    const found = this.wired.peek()?.outputs.find((it) => it.output === output);
    if (found) this.said.value = wouldBe(carried.lamp, found);
  }

  /** To the next output that takes a lamp, `steps` on; it stops at the ends. */
  step(steps: number): number | null {
    const carried = this.carried.peek();
    const open = this.wired.peek()?.outputs.filter(takesLamp) ?? [];
    if (!carried || open.length === 0) return null;
    const now = open.findIndex(({ output }) => output === carried.over);
    const next = open[Math.max(0, Math.min(open.length - 1, now + steps))];
    this.hover(next?.output ?? null);
    return next?.output ?? null;
  }

  /** False when there is nothing to change or the output takes no lamp. */
  async putDown(): Promise<boolean> {
    const carried = this.carried.peek();
    const wired = this.wired.peek();
    this.carried.value = null;
    if (!carried || !wired || carried.over === null || carried.over === carried.lamp.output) {
      if (carried) this.said.value = `Left ${carried.lamp.name} where it was.`;
      return false;
    }
    return this.apply(assign(wired.layout, carried.lamp.path, carried.over));
  }

  letGo(): void {
    const carried = this.carried.peek();
    this.carried.value = null;
    if (carried) this.said.value = `Left ${carried.lamp.name} where it was.`;
  }

  /** An edit of the wiring becomes one step of undo; what is in the way is shown. */
  async apply(edit: Edited): Promise<boolean> {
    if ('findings' in edit) {
      this.refusal.value = edit.findings;
      this.said.value = edit.findings.map(({ what, cure }) => `${what} ${cure}`).join(' ');
      return false;
    }
    this.refusal.value = [];
    const isDone = await this.#model.change(writeLayout(edit.layout), edit.said);
    if (isDone) this.said.value = edit.said;
    return isDone;
  }
}

export function wiredOf(layout: Layout, boardId: string, boards: readonly CompiledBoard[]): Wired | null {
  const board = boardOf(layout, boardId);
  if (board === null) return null;
  const compiled = boards.find(({ id }) => id === boardId) ?? null;
  const loads = compiled ? loadsOf(layout, compiled) : [];
  return {
    layout,
    board,
    outputs: outputsOf(layout, boardId),
    lamps: lampPlaces(layout, boardId),
    loads: new Map(loads.map((load) => [load.path, load])),
    compiled,
  };
}

export function takesLamp({ use }: Output): boolean {
  return use.is === 'free' || use.is === 'lamp';
}

function wouldBe(lamp: LampPlace, { output, name, use }: Output): string {
  if (output === lamp.output) return `${name}: where it is now.`;
  if (use.is === 'free') return `${name}: free.`;
  if (use.is === 'lamp') return `${name}: ${use.lamp.name}; the two would change places.`;
  return `${name} is ${usedFor(use)}: no lamp can go there.`;
}
