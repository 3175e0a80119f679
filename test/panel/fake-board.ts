/** A board for the panel's tests: the reference interpreter with a kept table and a switch. */

import { emptyState } from '../../renderer/model/board.ts';
import { Interpreter } from '../../shared/interpreter/interpreter.ts';
import type { CompiledBoard } from '../../shared/signals/compile.ts';
import type { BoardState, EventName, Events, LiveState, Problem, TableMatch } from '../../shared/workbench/contract.ts';

export type Tell = <N extends EventName>(name: N, data: Events[N]) => void;

/** Version that the host comes with. */
export const SHIPPED = '1.1.0';

const FAULTS = { none: 0, conflict: 1, stuck: 2 } as const;

export class FakeBoard {
  readonly compiled: CompiledBoard;
  state: BoardState;
  speed = 1;
  readonly #tell: Tell;
  #interpreter: Interpreter | null = null;
  #kept: number[][] | null = null;
  #sinceClock = 0;

  constructor(compiled: CompiledBoard, tell: Tell) {
    this.compiled = compiled;
    this.#tell = tell;
    this.state = emptyState(compiled.id);
  }

  connect(port: string, firmware = SHIPPED): void {
    const virtual = port.startsWith('virtual:');
    this.state = {
      ...this.state,
      port,
      virtual,
      link: 'ready',
      problem: null,
      powered: virtual ? true : null,
      speed: virtual ? this.speed : null,
      who: { firmware, protocol: 1, chip: 'atmega328p', identity: '00000001', name: 'Town' },
      firmware: { match: firmware === SHIPPED ? 'same' : 'older', shipped: SHIPPED },
    };
    this.report();
  }

  /** Nothing there, or nothing of ours: the host gives the port up and says why. */
  fail(port: string, problem: Problem): void {
    this.#interpreter = null;
    this.become({ ...emptyState(this.compiled.id), port, problem, firmware: { match: 'none', shipped: SHIPPED } });
  }

  /** Anything else that the host may tell of a board. */
  become(change: Partial<BoardState>): void {
    this.state = { ...this.state, ...change };
    this.#tell('board', this.state);
  }

  disconnect(): void {
    this.state = { ...emptyState(this.compiled.id) };
    this.#tell('board', this.state);
  }

  /** Runs the table from its start with the planned dials. */
  start(dials: readonly (readonly number[])[] | null = null): void {
    const { table } = this.compiled;
    const interpreter: Interpreter = new Interpreter(table, {
      lamps: (ms, lit) => this.#tell('lamps', { board: this.compiled.id, ms, lit: hex(lit) }),
      row: (ms, site, row) => this.#tell('row', { board: this.compiled.id, ms, site, row }),
    });
    this.#interpreter = interpreter;
    interpreter.start();
    dials?.forEach((row, site) => {
      for (const [dial, ms] of row.entries()) interpreter.setDial(site, dial, ms);
    });
    this.report();
    this.#tell('live', this.live());
  }

  keep(dials = this.dials()): void {
    this.#kept = dials.map((row) => [...row]);
    this.state = { ...this.state, keeps: this.state.keeps + 1 };
    this.report();
  }

  /** Switched off and on again: starts with what was kept. */
  power(on: boolean): void {
    if (!on) this.#interpreter = null;
    const problem = {
      code: 'powerOff',
      what: 'The virtual board is switched off.',
      why: 'Its switch is off.',
      next: 'Switch it on.',
    };
    this.state = { ...this.state, powered: on, link: on ? 'ready' : 'lost', problem: on ? null : problem };
    if (on && this.#kept) this.start(this.#kept);
    else this.report();
  }

  putBack(): void {
    this.#kept?.forEach((row, site) => {
      for (const [dial, ms] of row.entries()) this.#interpreter?.setDial(site, dial, ms);
    });
    this.report();
  }

  hold(site: number, on: boolean): void {
    this.#interpreter?.hold(site, on);
    this.state = { ...this.state, held: this.state.held.map((it, at) => (at === site ? on : it)) };
    this.report();
    this.#tell('live', this.live());
  }

  setSpeed(factor: number): void {
    this.speed = factor;
    this.state = { ...this.state, speed: factor };
    this.report();
  }

  get interpreter(): Interpreter | null {
    return this.#interpreter;
  }

  dials(): readonly (readonly number[])[] {
    return this.compiled.table.sites.map((site, at) =>
      site.dials.map((_, dial) => this.#interpreter?.dial(at, dial) ?? 0),
    );
  }

  /** Board time goes on; the clock is told each half second of it at speed 1. */
  advance(ms: number): void {
    if (!this.#interpreter || this.state.link !== 'ready') return;
    this.#interpreter.run(ms);
    this.#sinceClock += ms;
    if (this.#sinceClock < 500 * this.speed) return;
    this.#sinceClock = 0;
    this.#tell('clock', { board: this.compiled.id, ms: this.#interpreter.now, pace: this.speed });
  }

  report(): void {
    const running = this.#interpreter ? match(this.dials(), this.compiled) : 'none';
    const kept = this.#kept ? match(this.#kept, this.compiled) : 'none';
    const { sites } = this.compiled.table;
    this.state = {
      ...this.state,
      running,
      kept,
      runningDials: this.#interpreter ? this.dials() : null,
      keptDials: this.#kept,
      unkept: this.#interpreter !== null && JSON.stringify(this.dials()) !== JSON.stringify(this.#kept),
      held: sites.map((_, at) => this.state.held[at] ?? false),
      faults: sites.map((_, at) => FAULTS[this.#interpreter?.fault(at) ?? 'none']),
    };
    this.#tell('board', this.state);
  }

  live(): LiveState {
    const interpreter = this.#interpreter;
    const ms = interpreter?.now ?? 0;
    return {
      board: this.compiled.id,
      ms,
      lit: interpreter ? hex(interpreter.lit) : '0',
      glow: null,
      rows: this.compiled.table.sites.map((_, site) => ({
        row: interpreter?.row(site) ?? 0,
        began: (ms - (interpreter?.elapsed(site) ?? 0)) >>> 0,
      })),
    };
  }
}

function match(dials: readonly (readonly number[])[], compiled: CompiledBoard): TableMatch {
  const planned = compiled.table.sites.map((site) => site.dials);
  return JSON.stringify(planned) === JSON.stringify(dials) ? 'same' : 'times';
}

/** Lamp 0 in bit 0 of the last digit. */
export function hex(lit: readonly boolean[]): string {
  const digits = Math.max(1, Math.ceil(lit.length / 4));
  return Array.from({ length: digits }, (_, at) => {
    const first = 4 * (digits - 1 - at);
    return [0, 1, 2, 3].reduce((sum, bit) => sum + (lit[first + bit] ? 1 << bit : 0), 0).toString(16);
  })
    .join('')
    .toUpperCase();
}
