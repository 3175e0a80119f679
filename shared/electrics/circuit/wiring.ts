/** The wires of a virtual layout as they really run: plan and faults together. */
import type { Load, WiringFault } from '../model.ts';
import type { BranchFaults } from './branch.ts';

/** One head on its wire. */
export interface HeadWiring extends BranchFaults {
  readonly open: boolean;
}

export interface LoadWiring {
  readonly load: Load;
  /** Output at which its wire really ends. */
  readonly output: number;
  /** Its wire touches the common one. */
  readonly short: boolean;
  readonly heads: readonly HeadWiring[];
}

export interface Wiring {
  /** In the order of the loads. */
  readonly loads: readonly LoadWiring[];
  /** Outputs whose wires touch each other, also over a third one; outputs that touch none are left out. */
  readonly touching: readonly (readonly number[])[];
}

/** Faults of lamps that are not there change nothing. */
export function wiringOf(loads: readonly Load[], faults: readonly WiringFault[]): Wiring {
  const output = outputsBehind(loads, faults);
  const has = (kind: WiringFault['kind'], lamp: number, head?: number): boolean =>
    faults.some((fault) => {
      if (fault.kind !== kind || fault.lamp !== lamp) return false;
      return head === undefined || !('head' in fault) || fault.head === undefined || fault.head === head;
    });
  return {
    loads: loads.map((load) => ({
      load,
      output: output.get(load.lamp) ?? load.output,
      short: has('short', load.lamp),
      heads: load.heads.map((_, head) => ({
        open: has('open', load.lamp, head),
        reversed: has('reversed', load.lamp, head),
        noResistor: has('noResistor', load.lamp),
        dim: has('dim', load.lamp),
      })),
    })),
    touching: touchingOf(faults, output),
  };
}

/** By lamp, the output at which its wire ends once all exchanges are made, one after the other. */
export function outputsBehind(loads: readonly Load[], faults: readonly WiringFault[]): Map<number, number> {
  const output = new Map(loads.map((load) => [load.lamp, load.output]));
  for (const fault of faults) {
    if (fault.kind !== 'swapped') continue;
    const one = output.get(fault.lamp);
    const other = output.get(fault.with);
    if (one === undefined || other === undefined) continue;
    output.set(fault.lamp, other);
    output.set(fault.with, one);
  }
  return output;
}

function touchingOf(faults: readonly WiringFault[], output: ReadonlyMap<number, number>): number[][] {
  const groups: Set<number>[] = [];
  for (const fault of faults) {
    if (fault.kind !== 'bridged') continue;
    const ends = [output.get(fault.lamp), output.get(fault.with)].filter((end) => end !== undefined);
    if (ends.length < 2 || ends[0] === ends[1]) continue;
    const joined = new Set(ends);
    for (const group of groups.filter((one) => ends.some((end) => one.has(end)))) {
      for (const end of group) joined.add(end);
      groups.splice(groups.indexOf(group), 1);
    }
    groups.push(joined);
  }
  return groups.map((group) => [...group]);
}
