/** What the rules for each kind of site look like as data. All times in ms. */
import type { Fact, FlashRule, Span, TimeRule } from './fact.ts';

export type Aspect = 'red' | 'red-with-amber' | 'green' | 'amber' | 'dark' | 'flashing-red' | 'flashing-amber';

/**
 * What people on foot see between their green and their red. flashing-red is
 * the USA's flashing DON'T WALK; red is no aspect of its own: red at once.
 */
export type PedestrianClearance = 'blackout' | 'flashing-red' | 'flashing-green' | 'red';

export interface JunctionPractice {
  /** Aspects in the order in which a phase goes through them, from red. */
  readonly order: Fact<readonly Aspect[]>;
  readonly amber: TimeRule;
  /** Null where red goes to green at once. */
  readonly redWithAmber: TimeRule | null;
  /** Time for which everything is red between two stages. */
  readonly allRed: TimeRule;
  readonly minGreen: Fact<number>;
  readonly green: TimeRule;
  /** What a head shows after a breach. */
  readonly fault: Fact<Aspect>;
  /** What a head shows when asked to be safe. */
  readonly safe: Fact<Aspect>;
}

/** People on foot at the signals of a junction. */
export interface PedestrianPractice {
  readonly exists: Fact<boolean>;
  readonly green: TimeRule;
  /** From the end of their green until the next vehicles may start, less the vehicles' red with amber. */
  readonly clearance: TimeRule;
  readonly shows: Fact<PedestrianClearance>;
  /** Used only where `shows` flashes. */
  readonly flashOn: TimeRule;
  readonly flashOff: TimeRule;
  /** Metres a second, for a clearance from the width of the road. */
  readonly walkingSpeed: Fact<number>;
}

export interface ZebraPractice {
  readonly exists: Fact<boolean>;
  readonly on: TimeRule;
  readonly off: TimeRule;
  /** What the beacons show after a fault, and when asked to be safe. */
  readonly fault: Fact<Aspect>;
}

/** Crossing with flashing amber for vehicles. The letters are the periods of its timing diagram. */
export interface PelicanPractice {
  readonly exists: Fact<boolean>;
  /** A: at least this long between two calls. */
  readonly vehicleGreen: TimeRule;
  /** B. */
  readonly amber: TimeRule;
  /** C: both red, before the green man. */
  readonly allRed: TimeRule;
  /** D: green man. */
  readonly steadyGreen: TimeRule;
  /** E: green man flashes, vehicles still have red. Usually zero. */
  readonly heldFlashing: TimeRule;
  /** F: green man flashes, vehicles have flashing amber. */
  readonly flashing: TimeRule;
  /** G: red man, vehicles still have flashing amber. */
  readonly clearance: TimeRule;
  readonly flashOn: TimeRule;
  readonly flashOff: TimeRule;
  readonly flashRate: FlashRule | null;
  /** Of the vehicle heads. */
  readonly fault: Fact<Aspect>;
  readonly safe: Fact<Aspect>;
}

/** Signal-controlled crossing of today, without flashing amber. */
export interface CrossingPractice {
  readonly exists: Fact<boolean>;
  readonly vehicleGreen: TimeRule;
  readonly amber: TimeRule;
  readonly allRedBefore: TimeRule;
  readonly walk: TimeRule;
  /** After walk, while people finish; what they see is `pedestrianClearance`. */
  readonly clearance: TimeRule;
  readonly pedestrianClearance: Fact<PedestrianClearance>;
  /** Everything red between the clearance and the vehicles' start. */
  readonly allRedAfter: TimeRule;
  readonly redWithAmber: TimeRule | null;
  /** How much a detector on the crossing can add to the clearance. Null: no such detectors. */
  readonly extension: TimeRule | null;
  /** Used only where the clearance flashes. */
  readonly flashOn: TimeRule;
  readonly flashOff: TimeRule;
  readonly flashRate: FlashRule | null;
  readonly fault: Fact<Aspect>;
  readonly safe: Fact<Aspect>;
}

export interface LevelCrossingPractice {
  readonly exists: Fact<boolean>;
  /** Null where the reds come at once. */
  readonly amber: TimeRule | null;
  /** alternating: two reds in turn; steady: one red that does not flash. */
  readonly reds: Fact<'alternating' | 'steady'>;
  /** The reds last at least this long, however short the train. */
  readonly leastRed: TimeRule;
  /** Used only where the reds alternate. */
  readonly flashOn: TimeRule;
  readonly flashOff: TimeRule;
  readonly flashRate: FlashRule | null;
}

/** One lane past road works, a signal at each end. */
export interface ShuttlePractice {
  readonly exists: Fact<boolean>;
  readonly amber: TimeRule;
  /** While the lane clears. */
  readonly allRed: TimeRule;
  readonly redWithAmber: TimeRule | null;
  readonly green: TimeRule;
  readonly minGreen: Fact<number>;
  /** A green ends when no vehicle has come for this long. */
  readonly gap: TimeRule;
  /** Longest site, metres. */
  readonly longest: Fact<number> | null;
  /** What the heads show when nobody waits. */
  readonly idle: Fact<Aspect>;
}

export type RailwayAspect = 'red' | 'yellow' | 'double-yellow' | 'green';

/** Colour-light signals. */
export interface RailwayPractice {
  readonly exists: Fact<boolean>;
  /** From the most restrictive on. */
  readonly aspects: Fact<readonly RailwayAspect[]>;
  /** Lamps of a four-aspect head from the top; null where there is none. The single yellow is the lower one. */
  readonly fourAspectHead: Fact<readonly ('red' | 'yellow' | 'green')[]> | null;
  /** Lamps of a three-aspect head from the top. */
  readonly threeAspectHead: Fact<readonly ('red' | 'yellow' | 'green')[]>;
  /** A section counts as occupied for this much longer. */
  readonly overlap: TimeRule;
  /** Without detectors: from train to train, least and most. */
  readonly trainsLow: TimeRule;
  readonly trainsHigh: TimeRule;
  /** Without detectors: how long a train is in one section. */
  readonly section: TimeRule;
}

/** Lamps that are no signals. Low and high are the ends of random times. */
export interface LampPractice {
  readonly indicatorOn: TimeRule;
  readonly indicatorOff: TimeRule;
  readonly indicatorRate: FlashRule;
  readonly emergencyOn: TimeRule;
  readonly emergencyOff: TimeRule;
  readonly emergencyRate: FlashRule;
  /** One flash and the dark after it in a double flash; the pause between pairs. */
  readonly doubleFlash: TimeRule;
  readonly doublePause: TimeRule;
  /** From one street lamp to the next at switch-on. */
  readonly streetStaggerLow: TimeRule;
  readonly streetStaggerHigh: TimeRule;
  /** A discharge lamp's flickers as it strikes. */
  readonly streetStrikeLow: TimeRule;
  readonly streetStrikeHigh: TimeRule;
  readonly weldingLow: TimeRule;
  readonly weldingHigh: TimeRule;
  readonly weldingRestLow: TimeRule;
  readonly weldingRestHigh: TimeRule;
  readonly fireLow: TimeRule;
  readonly fireHigh: TimeRule;
}

/** Cycle of a junction, ms, that is neither restless nor boring to watch on a model. */
export type Viewing = Fact<Span>;
