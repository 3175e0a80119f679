/** From the readings of one pin to what they prove. Where they prove nothing it says so. */
import type { Load } from '../../electrics/model.ts';
import type { PinReading } from '../../link/requests.ts';
import { CONDUCTS_AT_LEAST, HIGH_SIDE, LOW_SIDE, MOST_TOLD_MILLIAMPS, mostDrop, SHORT_LIT_AT_LEAST } from './limits.ts';
import { isAnalogue, isSeries, isSeveral, whyNotProbed } from './probed.ts';
import { cantTell, conducts, lamp, noResistor, notShorted, open, short, type Verdict } from './verdict.ts';

const STRANGE =
  'The readings fit neither a lamp nor a fault: a bad joint, a long wire or an unusual lamp may be the cause.';
const SILENT = 'The board gave no reading.';
const SERIES = 'LEDs one after the other want more voltage than a weak test gives.';
const SEVERAL =
  'At least one of its lamps conducts and nothing is short. Whether each of them does, only the eye can tell.';
const FLOATING = 'A lamp conducts: this one, or one of the power shift registers if their wires touch.';
const FILAMENT = 'A cold filament measures like a short.';
/** Readings are of 1,024 steps. */
const STEPS = 1024;

/** `loads`: all of the board, this one too. */
export function judge(load: Load, reading: PinReading, loads: readonly Load[]): Verdict {
  const why = whyNotProbed(load);
  if (why !== null) return cantTell(why);
  // Outputs at rest hold their wires dark: low, or high for lamps lit by low. A touch between the two shows as open.
  // Those of power shift registers hold nothing at rest: their wire is high through its lamp.
  const floating = loads.some(({ circuit }) => circuit.driver === 'power-register');
  const opposite = loads.some((other) => other.activeLow !== load.activeLow && other.circuit.driver === 'direct');
  if (!isAnalogue(load)) return digital(load, reading.level, !opposite && !floating);
  const { rest, lit } = reading;
  if (rest === null || lit === null) return cantTell(SILENT);
  const told = load.activeLow
    ? lowSide(load, rest / STEPS, lit / STEPS, !opposite)
    : highSide(load, rest / STEPS, lit / STEPS, !opposite && !floating);
  return floating && told.mayStayLit && told.kind !== 'open' ? cantTell(FLOATING) : told;
}

function digital(load: Load, level: PinReading['level'], mayStayLit: boolean): Verdict {
  if (level === null) return cantTell(SILENT);
  return level === 1 ? notShorted(load, mayStayLit) : conducts(load);
}

function highSide(load: Load, rest: number, lit: number, mayStayLit: boolean): Verdict {
  if (rest <= HIGH_SIDE.shortAtMost) return load.circuit.source === 'filament' ? cantTell(FILAMENT) : short(load);
  if (rest >= HIGH_SIDE.openAtLeast) return isSeries(load) ? cantTell(SERIES, mayStayLit) : open(load, mayStayLit);
  if (rest < HIGH_SIDE.lampAtLeast || rest > HIGH_SIDE.lampAtMost) return cantTell(STRANGE);
  return lampWith(load, 1 - lit);
}

function lowSide(load: Load, rest: number, lit: number, mayStayLit: boolean): Verdict {
  if (rest >= LOW_SIDE.shortAtLeast && lit >= SHORT_LIT_AT_LEAST) {
    return load.circuit.source === 'filament' ? cantTell(FILAMENT) : short(load);
  }
  const flows = lit >= CONDUCTS_AT_LEAST;
  if (rest <= LOW_SIDE.openAtMost && !flows) {
    return isSeries(load) ? cantTell(SERIES, mayStayLit) : open(load, mayStayLit);
  }
  if (rest < LOW_SIDE.lampAtLeast || rest > LOW_SIDE.lampAtMost || !flows) return cantTell(STRANGE);
  return lampWith(load, lit);
}

/** `drop`: what the driven pin lost of the supply, as a share. */
function lampWith(load: Load, drop: number): Verdict {
  const { circuit } = load;
  if (circuit.source === 'filament') return cantTell(FILAMENT);
  if (isSeries(load)) return cantTell(SERIES);
  const milliamps = circuit.milliamps * load.heads.length * (circuit.wired === 'parallel' ? circuit.count : 1);
  const isTold = milliamps <= MOST_TOLD_MILLIAMPS;
  if (isTold && drop > mostDrop(milliamps, load.activeLow)) return noResistor(load);
  return isSeveral(load) ? cantTell(SEVERAL, true) : lamp(load, isTold);
}
