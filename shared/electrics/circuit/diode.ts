/**
 * LEDs and filaments as currents for a voltage. An LED is an exponential with a resistance in series,
 * V = slope ln(1 + I / saturation) + I ohms, laid through one point of its data sheet. At 2 to 20 mA that is what data
 * sheets draw; at the 0.1 mA of a pull-up it gives plausible voltages (red 1.7, green 2.4 V) that no data sheet proves.
 */
import type { Parts } from './parts.ts';

export interface Diode {
  readonly slope: number;
  readonly saturation: number;
  readonly ohms: number;
}

/** Through `volts` at `amps`. */
export function diodeThrough(volts: number, amps: number, parts: Pick<Parts, 'ledSlope' | 'ledOhms'>): Diode {
  const slope = parts.ledSlope;
  // A lamp of many milliamperes is a larger LED with less resistance inside.
  const ohms = Math.min(parts.ledOhms, (0.15 * volts) / amps);
  return { slope, ohms, saturation: amps / Math.expm1((volts - amps * ohms) / slope) };
}

/**
 * Current through `chain` diodes one after the other and a resistor, for a voltage of at least 0. In u = ln(1 + I / Is)
 * the sum of the voltages is convex and grows, so Newton's method from above never oversteps.
 */
export function forwardAmps(volts: number, diode: Diode, chain: number, resistor: number): number {
  if (volts <= 0) return 0;
  const ohms = chain * diode.ohms + resistor;
  const slope = chain * diode.slope;
  const scaled = ohms * diode.saturation;
  let u = Math.min(volts / slope, Math.log1p(volts / scaled));
  for (let round = 0; round < 60; round++) {
    const grown = Math.exp(u);
    const step = (slope * u + scaled * (grown - 1) - volts) / (slope + scaled * grown);
    u -= step;
    if (Math.abs(step) < 1e-9) break;
  }
  return diode.saturation * Math.expm1(Math.max(0, u));
}

/** Rated point of a filament: `volts` across it drive `amps`. */
export interface Filament {
  readonly volts: number;
  readonly amps: number;
}

/** Current grows with about the 0.55th power of the voltage; cold it has a tenth of its resistance. From memory. */
const POWER = 0.55;
const COLD = 0.1;
/** Share of the rated voltage below which it is cold. */
const COLD_BELOW = COLD ** (1 / (1 - POWER));

export function filamentAmps(volts: number, rated: Filament): number {
  const share = Math.abs(volts) / rated.volts;
  const amps = share < COLD_BELOW ? share / COLD : share ** POWER;
  return Math.sign(volts) * amps * rated.amps;
}
