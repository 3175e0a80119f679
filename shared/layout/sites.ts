/** The places that run by themselves: junctions and zebra crossings. */
import { z } from 'zod';
import { TimeLimits } from './limits.ts';
import { Lamp, NamedLamp } from './outputs.ts';
import { Angle, Place } from './places.ts';
import { Id, Name, Seconds, SecondsOrZero } from './scalars.ts';

export const siteFields = {
  id: Id,
  name: Name,
  board: Id,
  /** Id of a common cycle. */
  group: Id.optional(),
  /**
   * With a group: seconds after the start of the common cycle at which the
   * junction begins its change to the first stage. Default: 0.
   */
  offset: SecondsOrZero.optional(),
  /** Without a group: the first interval lasts this much longer, once, seconds. */
  startDelay: SecondsOrZero.optional(),
  /** What the site does while the board is set to night. Default: run. */
  atNight: z.enum(['run', 'fault', 'safe', 'dark']).optional(),
  place: Place.optional(),
  /** Limits of its times against the practice's. Default: the practice's. */
  limits: TimeLimits.optional(),
};

/** Red, amber and green of one head, or of all heads of a phase. A filter arrow has only green. */
const Lamps = z.strictObject({ red: Lamp.optional(), amber: Lamp.optional(), green: Lamp.optional() });

/** Streams that always get the same aspects together (in the USA: a movement). */
export const Phase = z.strictObject({
  id: Id,
  name: Name,
  /** Outputs shared by all heads of the phase. */
  lamps: Lamps.optional(),
  /** Pedestrian phases have red and green, and a clearance in place of amber. Default: vehicle. */
  kind: z.enum(['vehicle', 'pedestrian']).optional(),
  /** Seconds. Default: the practice's. */
  minGreen: Seconds.optional(),
  /** Pedestrian phases: from the end of green until the last have crossed, seconds. Default: the practice's. */
  clearance: Seconds.optional(),
  /** Inputs that ask for the phase: buttons and detectors. */
  demand: z.array(Id).optional(),
});

/** One signal head on one post. */
export const Head = z.strictObject({
  id: Id,
  name: Name,
  phase: Id,
  /** Who looks at it. Default: vehicle. */
  kind: z.enum(['vehicle', 'pedestrian']).optional(),
  /** Where the traffic that faces it comes from, degrees clockwise from the site's up (its `turn`). */
  arm: Angle.optional(),
  /** Only where this head has outputs of its own, beside those of its phase. */
  lamps: Lamps.optional(),
});

export const Stage = z.strictObject({
  id: Id,
  name: Name.optional(),
  /** Phases that have right of way. */
  phases: z.array(Id),
  /** Seconds for which all of them are green; the least where the stage is extended or waits for a demand. */
  green: Seconds,
  /** The stage is left out while nobody asks for it. Default: false. */
  skip: z.boolean().optional(),
  /** Phases whose demands call the stage. Default: all its phases. */
  calledBy: z.array(Id).optional(),
  /** Vehicles keep the stage green. */
  extend: z
    .strictObject({
      /** The stage ends when no vehicle has come for this long, seconds. Default: the junction's gap. */
      gap: Seconds.optional(),
      /** But at the latest this long after somebody else asked for green, seconds. */
      maximum: Seconds,
      /** Default: the demands of its vehicle phases. */
      detectors: z.array(Id).optional(),
    })
    .optional(),
});

/** A phase that starts or stops later than the change of stages would have it. */
export const PhaseDelay = z.strictObject({
  phase: Id,
  /** Only in changes from this stage. Default: from any. */
  from: Id.optional(),
  /** Only in changes to this stage. Default: to any. */
  to: Id.optional(),
  /** Its green starts so much later than its intergreens allow, seconds. */
  start: SecondsOrZero.optional(),
  /** Its green ends so much after the stage, seconds. */
  end: SecondsOrZero.optional(),
});

export const Junction = z.strictObject({
  kind: z.literal('junction'),
  ...siteFields,
  phases: z.array(Phase).min(1, { error: 'no-phases' }),
  heads: z.array(Head).optional(),
  stages: z.array(Stage).min(1, { error: 'no-stages' }),
  /** Phases that never have right of way together. Phases that share no stage conflict anyway. */
  conflicts: z.array(z.tuple([Id, Id])).optional(),
  /**
   * From the end of one phase's green to the start of the other's, seconds:
   * `{ "A": { "B": 5 } }`. A pair named here conflicts. Default: amber + allRed + redWithAmber.
   */
  intergreens: z.record(Id, z.record(Id, Seconds)).optional(),
  /** Seconds. Default: the practice's. */
  amber: Seconds.optional(),
  /** Seconds. Default: the practice's. */
  redWithAmber: Seconds.optional(),
  /** Seconds, for pairs without an intergreen of their own. Default: the practice's. */
  allRed: SecondsOrZero.optional(),
  delays: z.array(PhaseDelay).optional(),
  /** Stage in which the junction waits when nobody asks for anything. Default: the one that is running. */
  rest: Id.optional(),
  /** Gap of all stages that vehicles extend, seconds. Default: 1.5 (from memory). */
  gap: Seconds.optional(),
});

export const Beacon = NamedLamp.extend({
  /** Default: amber. */
  colour: NamedLamp.shape.colour.optional(),
  /** Side of the road, seen along the site's up. Default: the first left, the second right, and so on. */
  side: z.enum(['left', 'right']).optional(),
});

export const Zebra = z.strictObject({
  kind: z.literal('zebra'),
  ...siteFields,
  /** The road runs along the site's up. */
  beacons: z.array(Beacon).min(1, { error: 'no-beacons' }),
  /** Seconds. Default: the practice's. */
  on: Seconds.optional(),
  off: Seconds.optional(),
  /** Both sides at the same moment, or in turn. Default: together. */
  flash: z.enum(['together', 'alternate']).optional(),
});

export type Phase = z.infer<typeof Phase>;
export type Head = z.infer<typeof Head>;
export type PhaseDelay = z.infer<typeof PhaseDelay>;
export type Stage = z.infer<typeof Stage>;
export type Junction = z.infer<typeof Junction>;
export type Zebra = z.infer<typeof Zebra>;
