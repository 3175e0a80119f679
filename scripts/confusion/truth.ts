/** What is really wrong at an output, worked out from the list of faults alone: the network has no say in it. */
import type { Load, WiringFault } from '../../shared/electrics/model.ts';
import type { Verdict } from '../../shared/lampcheck/self-check/verdict.ts';

export interface Truth {
  /** Its wire touches the common one or that of another output. */
  readonly short: boolean;
  /** Some LED or filament leads the right way from the output to its common wire. */
  readonly conducts: boolean;
  /** One that conducts has no resistor. */
  readonly noResistor: boolean;
}

export function truthAt(load: Load, loads: readonly Load[], faults: readonly WiringFault[]): Truth {
  const end = new Map(loads.map((one) => [one.lamp, one.output]));
  for (const fault of faults) {
    if (fault.kind !== 'swapped') continue;
    const [a, b] = [end.get(fault.lamp), end.get(fault.with)];
    if (a === undefined || b === undefined) continue;
    end.set(fault.lamp, b);
    end.set(fault.with, a);
  }
  const here = loads.filter((one) => end.get(one.lamp) === load.output);
  const hits = (kind: WiringFault['kind'], one: Load) => faults.some((f) => f.kind === kind && f.lamp === one.lamp);
  const touches = faults.some(
    (f) =>
      f.kind === 'bridged' &&
      end.get(f.lamp) !== end.get(f.with) &&
      (end.get(f.lamp) === load.output || end.get(f.with) === load.output),
  );
  const lives = here.filter(
    (one) => isFed(one) === isFed(load) && one.heads.some((_, head) => isSound(one, head, faults)),
  );
  return {
    short: touches || here.some((one) => hits('short', one)),
    conducts: lives.length > 0,
    noResistor: lives.some((one) => hits('noResistor', one) && !hits('dim', one) && one.circuit.source === 'led'),
  };
}

/** Its lamp hangs between a feed and the output, not between the output and ground. */
function isFed({ activeLow, circuit }: Load): boolean {
  return activeLow || circuit.driver === 'power-register';
}

function isSound(load: Load, head: number, faults: readonly WiringFault[]): boolean {
  return !faults.some(
    (fault) =>
      fault.lamp === load.lamp &&
      (fault.kind === 'open' || (fault.kind === 'reversed' && load.circuit.source === 'led')) &&
      (fault.head === undefined || fault.head === head),
  );
}

/** What a verdict may not say; null: it is no lie. */
export function lieOf({ kind, what, mayStayLit }: Verdict, truth: Truth): string | null {
  if (kind === 'lamp' && truth.short) return 'a lamp where there is a short';
  if (kind === 'lamp' && !truth.conducts) return 'a lamp where nothing conducts';
  if (kind === 'lamp' && truth.noResistor && !what.includes('does not show')) return 'a resistor where there is none';
  if (mayStayLit && truth.short) return 'fit to stay lit where there is a short';
  return null;
}
