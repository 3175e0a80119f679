/** Wiring faults while the plan changes: wires that were soldered wrongly stay where they are, whatever the plan says. */
import type { Load, WiringFault } from '../model.ts';
import { outputsBehind } from './wiring.ts';

/**
 * The faults in the numbers of a changed plan. Lamps are known again by site, label and colour. The wire of a lamp that
 * was exchanged stays at its output, so that a plan that says so mends it; all other wires follow the plan.
 */
export function carryOver(
  before: readonly Load[],
  faults: readonly WiringFault[],
  after: readonly Load[],
): WiringFault[] {
  if (faults.length === 0) return [];
  const now = byKey(after);
  const newOf = new Map([...byKey(before)].map(([key, { lamp }]) => [lamp, now.get(key)]));
  const kept = faults.flatMap((fault): WiringFault[] => {
    if (fault.kind === 'swapped') return [];
    const load = newOf.get(fault.lamp);
    if (!load) return [];
    if (fault.kind === 'bridged') {
      const other = newOf.get(fault.with);
      return other && other !== load ? [{ ...fault, lamp: load.lamp, with: other.lamp }] : [];
    }
    const isThere = !('head' in fault) || fault.head === undefined || fault.head < load.heads.length;
    return isThere ? [{ ...fault, lamp: load.lamp }] : [];
  });
  return [...exchanges(before, faults, after, newOf), ...kept];
}

function exchanges(
  before: readonly Load[],
  faults: readonly WiringFault[],
  after: readonly Load[],
  newOf: ReadonlyMap<number, Load | undefined>,
): WiringFault[] {
  const planned = new Map(after.map((load) => [load.lamp, load.output]));
  const outputs = new Set(planned.values());
  const behind = outputsBehind(before, faults);
  const end = new Map(planned);
  for (const fault of faults) {
    if (fault.kind !== 'swapped') continue;
    for (const old of [fault.lamp, fault.with]) {
      const load = newOf.get(old);
      const output = behind.get(old);
      if (load && output !== undefined && outputs.has(output)) end.set(load.lamp, output);
    }
  }
  settleDoubles(end, planned);
  return asSwaps(planned, end);
}

/** Where the new plan puts another lamp on the output of a stuck wire, both follow the plan. */
function settleDoubles(end: Map<number, number>, planned: ReadonlyMap<number, number>): void {
  for (let round = 0; round <= end.size; round++) {
    const users = new Map<number, number[]>();
    for (const [lamp, output] of end) users.set(output, [...(users.get(output) ?? []), lamp]);
    const doubled = [...users.values()].filter(({ length }) => length > 1).flat();
    if (doubled.length === 0) return;
    for (const lamp of doubled) end.set(lamp, planned.get(lamp) ?? 0);
  }
}

/** Exchanges that lead from the plan to where the wires end. */
function asSwaps(planned: ReadonlyMap<number, number>, end: ReadonlyMap<number, number>): WiringFault[] {
  const now = new Map(planned);
  const swaps: WiringFault[] = [];
  for (const [lamp, output] of end) {
    if (now.get(lamp) === output) continue;
    const other = [...now].find(([, at]) => at === output)?.[0];
    if (other === undefined) continue;
    now.set(other, now.get(lamp) ?? output);
    now.set(lamp, output);
    swaps.push({ kind: 'swapped', lamp, with: other });
  }
  return swaps;
}

/** Loads by what a person calls them; lamps of one name in their order. */
function byKey(loads: readonly Load[]): Map<string, Load> {
  const known = new Map<string, Load>();
  for (const load of loads) {
    const name = JSON.stringify([load.site, load.label, load.colour]);
    let key = name;
    for (let count = 2; known.has(key); count++) key = `${name} ${count}`;
    known.set(key, load);
  }
  return known;
}
