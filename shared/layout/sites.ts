/** The places that run by themselves: junctions and zebra crossings. */
import { z } from 'zod';
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
};

/** Red, amber and green of one head, or of all heads of a phase. A filter arrow has only green. */
const Lamps = z.strictObject({ red: Lamp.optional(), amber: Lamp.optional(), green: Lamp.optional() });

/** Streams that always get the same aspects together (in the USA: a movement). */
export const Phase = z.strictObject({
  id: Id,
  name: Name,
  /** Outputs shared by all heads of the phase. */
  lamps: Lamps.optional(),
  /** Seconds. Default: the practice's. */
  minGreen: Seconds.optional(),
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
  /** Seconds for which all of them are green. */
  green: Seconds,
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
export type Stage = z.infer<typeof Stage>;
export type Junction = z.infer<typeof Junction>;
export type Zebra = z.infer<typeof Zebra>;
