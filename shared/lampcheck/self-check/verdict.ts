/** What the self-check says of one output, in words. */
import type { Load } from '../../electrics/model.ts';
import { isSeveral } from './probed.ts';

/**
 * open: nothing conducts; short: straight to the common wire or another one; lamp: one LED conducts as it should
 * (which, and of what colour, is not told); conducts: a lamp or a short; notShorted: a lamp or nothing;
 * noResistor: the lamp conducts far too well; cantTell: see `what`.
 */
export type VerdictKind = 'open' | 'short' | 'lamp' | 'conducts' | 'notShorted' | 'noResistor' | 'cantTell';

export interface Verdict {
  readonly kind: VerdictKind;
  /** What it means. */
  readonly what: string;
  /** What to do. */
  readonly next: string;
  /**
   * No short is possible, so the output may be lit for as long as one likes. On a digital pin, and where the lamp's
   * planned current is large, a missing resistor does not show.
   */
  readonly mayStayLit: boolean;
}

const LOOK = 'Light it, and look.';
const BRIEFLY = 'Light it briefly only, and look.';

export function cantTell(why: string, mayStayLit = false): Verdict {
  return { kind: 'cantTell', what: why, next: mayStayLit ? LOOK : BRIEFLY, mayStayLit };
}

/** `mayStayLit`: false where lamps of the other polarity share the board, as a wire that touches theirs looks the same. */
export function open(load: Load, mayStayLit: boolean): Verdict {
  const several = isSeveral(load) ? 'None of its lamps conducts' : 'Nothing conducts';
  return {
    kind: 'open',
    what: `${several} at ${load.outputName}: a wire or joint is open, or the LED is the wrong way round or dead.${hidden(mayStayLit)}`,
    next: `Follow the ${load.wire} wire from ${load.outputName} to the lamp; then try the LED the other way round.`,
    mayStayLit,
  };
}

export function short(load: Load): Verdict {
  return {
    kind: 'short',
    what: `${load.outputName} is short: its wire touches the common one or another wire.`,
    next: 'Do not light it. Switch off, and look for touching wires and solder bridges along its way.',
    mayStayLit: false,
  };
}

/** `resistor`: told: a missing one would have shown. */
export function lamp(load: Load, resistorTold: boolean): Verdict {
  const resistor = resistorTold ? ' Its resistor is there.' : ' Whether its resistor is there does not show.';
  return {
    kind: 'lamp',
    what: `An LED conducts at ${load.outputName} and nothing is short.${resistor} Its colour and place do not show.`,
    next: LOOK,
    mayStayLit: true,
  };
}

export function conducts(load: Load): Verdict {
  return {
    kind: 'conducts',
    what: `Something conducts at ${load.outputName}: a lamp, or a short. This pin cannot tell which.`,
    next: BRIEFLY,
    mayStayLit: false,
  };
}

export function notShorted(load: Load, mayStayLit: boolean): Verdict {
  return {
    kind: 'notShorted',
    what: `${load.outputName} is not short. Whether a lamp is there, and its resistor, this pin cannot tell.${hidden(mayStayLit)}`,
    next: mayStayLit ? LOOK : BRIEFLY,
    mayStayLit,
  };
}

export function noResistor(load: Load): Verdict {
  return {
    kind: 'noResistor',
    what: `Far more current than planned flows at ${load.outputName}: a resistor is missing, bridged or too small.`,
    next: `Do not leave it lit. Look for the resistor of ${load.label}${load.colour ? ` ${load.colour}` : ''}.`,
    mayStayLit: false,
  };
}

function hidden(mayStayLit: boolean): string {
  return mayStayLit ? '' : ' A wire that touches a lamp of the other polarity would look the same.';
}
