/** What the virtual layout is made of beside its lamps. Volts, amperes, ohms, farads. */
import { common, type Fact, fact } from '../../practice/fact.ts';
import { CHAIN_HIGH_OHMS, CHAIN_LOW_OHMS, HIGH_OHMS, LOW_OHMS, SINK_OHMS } from './facts.ts';

export interface Parts {
  /** What feeds the board, without load. */
  readonly supplyVolts: number;
  /** Of the supply and its cable. */
  readonly supplyOhms: number;
  /** What the board itself takes, A. */
  readonly boardAmps: number;
  readonly pullUpOhms: number;
  readonly pinHighOhms: number;
  readonly pinLowOhms: number;
  readonly chainHighOhms: number;
  readonly chainLowOhms: number;
  readonly sinkOhms: number;
  /** Of two wires that touch. */
  readonly touchOhms: number;
  /** Current that leaks into a released pin; negative: out of it. */
  readonly leakAmps: number;
  /** What an LED passes the wrong way round at 5 V. */
  readonly reverseAmps: number;
  /** Of a pin with its wire and its LED. */
  readonly farads: number;
  /** Voltage in which the current of an LED grows e-fold: the steepness of its curve. */
  readonly ledSlope: number;
  /** Series resistance inside an LED. */
  readonly ledOhms: number;
  /** Between an output and the base of its transistor. */
  readonly baseOhms: number;
  /** Current gain of such a transistor. */
  readonly gain: number;
}

/** Why the usual parts are as they are, where no data sheet of `facts.ts` says it. */
export const USUAL: Readonly<
  Record<'supplyOhms' | 'boardAmps' | 'farads' | 'ledSlope' | 'ledOhms' | 'baseOhms' | 'gain', Fact<number>>
> = {
  supplyOhms: fact(0.5, 'memory', 'cable and resettable fuse of a USB supply; from memory'),
  boardAmps: fact(0.04, 'memory', 'chip, bridge and power LED of a hobby board; from memory'),
  farads: fact(130e-12, 'memory', 'pin 10 pF, half a metre of wire and one LED about 120 pF; from memory'),
  ledSlope: fact(0.052, 'memory', 'twice the thermal voltage of 26 mV, usual for LEDs; unproven below 1 mA'),
  ledOhms: fact(8, 'memory', 'usual small LEDs; from memory'),
  baseOhms: common(1000),
  gain: common(100),
};

export const USUAL_PARTS: Parts = {
  supplyVolts: 5,
  supplyOhms: USUAL.supplyOhms.value,
  boardAmps: USUAL.boardAmps.value,
  // Inside the 20 to 50 kilohm of the data sheet.
  pullUpOhms: 35_000,
  pinHighOhms: HIGH_OHMS.value,
  pinLowOhms: LOW_OHMS.value,
  chainHighOhms: CHAIN_HIGH_OHMS.value,
  chainLowOhms: CHAIN_LOW_OHMS.value,
  sinkOhms: SINK_OHMS.value,
  touchOhms: 0.1,
  leakAmps: 0,
  reverseAmps: 10e-9,
  farads: USUAL.farads.value,
  ledSlope: USUAL.ledSlope.value,
  ledOhms: USUAL.ledOhms.value,
  baseOhms: USUAL.baseOhms.value,
  gain: USUAL.gain.value,
};
