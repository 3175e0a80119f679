/** Lamp edges over time: what a run of the reference interpreter is compared by. */
import type { BoardTable } from '../table/model.ts';
import { Interpreter, type Listener } from './interpreter.ts';

/** A lamp that was lit or went dark, `ms` after the start (it does not wrap). */
export interface Edge {
  readonly ms: number;
  readonly lamp: number;
  readonly lit: boolean;
}

/** An interpreter whose lamp edges are handed to `onEdge`. All lamps are dark before the first tick. */
export function tracing(table: BoardTable, onEdge: (edge: Edge) => void, listener: Listener = {}): Interpreter {
  let before: readonly boolean[] = table.lamps.map(() => false);
  const interpreter: Interpreter = new Interpreter(table, {
    ...listener,
    lamps: (ms, lit) => {
      for (const [lamp, isLit] of lit.entries()) {
        if (isLit !== before[lamp]) onEdge({ ms: interpreter.ran, lamp, lit: isLit });
      }
      before = [...lit];
      listener.lamps?.(ms, lit);
    },
  });
  return interpreter;
}

/** All lamp edges of the first so many ms of a table that nobody touches. */
export function traceTable(table: BoardTable, ms: number): Edge[] {
  const edges: Edge[] = [];
  const interpreter = tracing(table, (edge) => edges.push(edge));
  interpreter.start();
  interpreter.run(ms);
  return edges;
}
