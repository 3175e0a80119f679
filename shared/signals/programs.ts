/** Sites of the same shape share one program, which saves most of the image. */
import type { Program } from '../table/model.ts';

export class Programs {
  readonly list: Program[] = [];
  private readonly known = new Map<string, number>();

  /** Number of the program in the list; the names in it do not count. */
  add(program: Program): number {
    const key = shapeOf(program);
    const found = this.known.get(key);
    if (found !== undefined) return found;
    this.list.push(program);
    this.known.set(key, this.list.length - 1);
    return this.list.length - 1;
  }
}

function shapeOf(program: Program): string {
  const { flash, fault, safe, conflicts, rows } = program;
  const limits = program.dials.map(({ min, max }) => [min, max]);
  return JSON.stringify([program.lamps.length, limits, program.inputs.length, flash, fault, safe, conflicts, rows]);
}
