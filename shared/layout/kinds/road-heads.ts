/** Lamps and heads that the signal-controlled crossings share. */
import { z } from 'zod';
import { Lamp } from '../outputs.ts';
import { Angle } from '../places.ts';
import { Id, Name } from '../scalars.ts';

/** One vehicle head, or all that share its outputs. */
export const VehicleLamps = z.strictObject({ red: Lamp.optional(), amber: Lamp.optional(), green: Lamp.optional() });

/** Standing and walking figure of one head, or of all that share its outputs. */
export const FigureLamps = z.strictObject({ red: Lamp.optional(), green: Lamp.optional() });

/** One head on one post, at a crossing. */
export const CrossingHead = z.strictObject({
  id: Id,
  name: Name,
  kind: z.enum(['vehicle', 'pedestrian']),
  /** Where the traffic that faces it comes from, degrees clockwise from the site's up (its `turn`). */
  arm: Angle.optional(),
  /** Only where this head has outputs of its own, beside the shared ones. */
  lamps: VehicleLamps.optional(),
});

/** What every crossing with signals for both has. */
export const crossingFields = {
  /** Outputs shared by all vehicle heads. */
  vehicles: VehicleLamps.optional(),
  /** Outputs shared by all pedestrian heads. */
  pedestrians: FigureLamps.optional(),
  heads: z.array(CrossingHead).optional(),
  /** Inputs; the lamp of each (WAIT) is its `indicator`. Without any the crossing runs by time. */
  buttons: z.array(Id).optional(),
};

export type VehicleLamps = z.infer<typeof VehicleLamps>;
export type FigureLamps = z.infer<typeof FigureLamps>;
export type CrossingHead = z.infer<typeof CrossingHead>;
