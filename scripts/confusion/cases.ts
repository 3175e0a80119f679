/** Which faults are set, and under which conditions. */
import {
  HIGH_OHMS,
  LEAK_AMPS,
  LEAST_PIN_OHMS,
  LED_REVERSE_AMPS,
  LOW_OHMS,
  PULL_UP_OHMS,
} from '../../shared/electrics/circuit/facts.ts';
import type { Load, WiringFault } from '../../shared/electrics/model.ts';
import type { Draw } from './benches.ts';
import type { Conditions } from './paper.ts';

/** Every single fault there is on a board. */
export function singleFaults(loads: readonly Load[]): WiringFault[] {
  const alone = loads.flatMap(({ lamp, heads }): WiringFault[] => {
    const each = heads.length > 1 ? heads.keys() : [];
    return [
      ...(['open', 'short', 'reversed', 'noResistor', 'dim'] as const).map((kind) => ({ kind, lamp })),
      ...[...each].flatMap((head) => (['open', 'reversed'] as const).map((kind) => ({ kind, lamp, head }))),
    ];
  });
  const pairs = loads.flatMap(({ lamp }, index) =>
    loads
      .slice(index + 1)
      .flatMap((other) => (['swapped', 'bridged'] as const).map((kind) => ({ kind, lamp, with: other.lamp }))),
  );
  return [...alone, ...pairs];
}

export function randomFault(loads: readonly Load[], draw: Draw): WiringFault {
  const all = singleFaults([loads[draw(loads.length)], loads[draw(loads.length)]].filter((load) => load !== undefined));
  const fitting = all.filter((fault) => !('with' in fault) || fault.with !== fault.lamp);
  return fitting[draw(fitting.length)] ?? { kind: 'open', lamp: 0 };
}

/** Both ends of the pull-up, both answers in the undefined zone, everything else usual. */
export const CORNERS: readonly Conditions[] = PULL_UP_OHMS.value.flatMap((pullUpOhms) =>
  (['low', 'high'] as const).map((undefinedZone) => ({ parts: { pullUpOhms }, undefinedZone, adcError: 0 })),
);

/** Everything at one end or the other of what its data sheet allows. */
export function extremeConditions(draw: Draw): Conditions {
  const one = <T>(...values: readonly [T, ...T[]]): T => values[draw(values.length)] ?? values[0];
  return {
    undefinedZone: one('low', 'high'),
    adcError: one(-2, 0, 2),
    parts: {
      pullUpOhms: one(...PULL_UP_OHMS.value),
      supplyVolts: one(4.6, 5, 5.45),
      pinHighOhms: one(LEAST_PIN_OHMS.value, HIGH_OHMS.value),
      pinLowOhms: one(LEAST_PIN_OHMS.value, LOW_OHMS.value),
      leakAmps: one(-LEAK_AMPS.value, 0, LEAK_AMPS.value),
      reverseAmps: one(1e-9, LED_REVERSE_AMPS.value),
      farads: one(24e-12, 130e-12, 400e-12),
      ledSlope: one(0.035, 0.052, 0.075),
      ledOhms: one(4, 8, 15),
      touchOhms: one(0.1, 5),
      boardAmps: 0.02,
    },
  };
}
