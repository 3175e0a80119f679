/** Wiring faults in words. */
import type { Load, WiringFault } from '../model.ts';

/** "Market Cross, Fore Street red (D2)". */
function lampName(lamp: number, loads: readonly Load[]): string {
  const load = loads.find((one) => one.lamp === lamp);
  if (!load) return `lamp ${lamp}`;
  const place = load.site === null ? '' : `${load.siteName}, `;
  return `${place}${[load.label, load.colour].filter(Boolean).join(' ')} (${load.outputName})`;
}

/** "Market Cross, Fore Street red (D2) has no connection". */
export function faultText(fault: WiringFault, loads: readonly Load[]): string {
  const name = lampName(fault.lamp, loads);
  const head = (index: number | undefined) => {
    const known = index === undefined ? undefined : loads.find(({ lamp }) => lamp === fault.lamp)?.heads[index];
    return known ? ` at ${known.name}` : '';
  };
  switch (fault.kind) {
    case 'open':
      return `${name} has no connection${head(fault.head)}`;
    case 'short':
      return `the wire of ${name} touches the common one`;
    case 'reversed':
      return `${name} is the wrong way round${head(fault.head)}`;
    case 'noResistor':
      return `${name} has no resistor`;
    case 'dim':
      return `${name} has ten times its resistor`;
    case 'swapped':
      return `${name} and ${lampName(fault.with, loads)} have changed places`;
    case 'bridged':
      return `the wires of ${name} and ${lampName(fault.with, loads)} touch each other`;
  }
}
