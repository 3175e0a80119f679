/**
 * Where things stand on the baseboard. Millimetres from its far left corner, x
 * to the right, y towards the viewer; angles in degrees clockwise from "up",
 * which is away from the viewer. All of it is optional: lights run without a plan.
 */
import { z } from 'zod';
import type { Finding } from '../findings/finding.ts';
import { warning } from '../findings/make.ts';
import { Id, Name, Percent } from './scalars.ts';

/** Hundred metres: nobody has a layout beyond that, and whatever is drawn or tried along a length comes to an end. */
const FAR = 100_000;

const figure = z.number({ error: (issue) => (issue.input === undefined ? undefined : 'not-a-length') });
const Millimetres = figure.min(-FAR, { error: 'far-away' }).max(FAR, { error: 'far-away' });
const Length = figure.gt(0, { error: 'zero-length' }).min(1, { error: 'odd-length' }).max(FAR, { error: 'odd-length' });
export const Angle = figure.gte(0, { error: 'bad-angle' }).lt(360, { error: 'bad-angle' });

export const Baseboard = z.strictObject({ width: Length, depth: Length });

export const Road = z.strictObject({
  id: Id,
  name: Name,
  /** From kerb to kerb. */
  width: Length,
  /** The middle of the road, `[x, y]` from one end to the other. */
  points: z.array(z.tuple([Millimetres, Millimetres])).min(2, { error: 'short-road' }),
});

/** Middle of a site. `turn`: the direction of the site's own "up" on the plan; default 0. */
export const Place = z.strictObject({ x: Millimetres, y: Millimetres, turn: Angle.optional() });

/** A track plan or a photo that lies under the plan. The picture itself is kept on the computer, not in the layout. */
export const Underlay = z.strictObject({
  /** SHA-256 of the picture's bytes. */
  picture: z.string().regex(/^[0-9a-f]{64}$/, { error: 'bad-picture' }),
  /** Of its file, so that it can be found again. */
  name: z.string().trim().min(1, { error: 'empty-name' }).max(255, { error: 'long-name' }),
  /** Its middle. */
  x: Millimetres,
  y: Millimetres,
  /** From its left edge to its right one. */
  width: Length,
  /** Default: 0. */
  turn: Angle.optional(),
  /** How much of it shows through, percent. Default: 60. */
  strength: Percent.optional(),
});

export type Baseboard = z.infer<typeof Baseboard>;
export type Road = z.infer<typeof Road>;
export type Place = z.infer<typeof Place>;
export type Underlay = z.infer<typeof Underlay>;

interface Placed {
  readonly name: string;
  readonly place?: Place | undefined;
}

/** Sites that do not stand on the baseboard. */
export function checkPlaces(baseboard: Baseboard | undefined, sites: readonly Placed[]): Finding[] {
  if (baseboard === undefined) return [];
  return sites.flatMap(({ name, place }, index) => {
    if (place === undefined) return [];
    const { width, depth } = baseboard;
    if (place.x >= 0 && place.x <= width && place.y >= 0 && place.y <= depth) return [];
    return [
      warning('off-the-baseboard', `sites[${index}].place`, {
        what: `${name} stands beside the baseboard of ${width} by ${depth} mm.`,
        why: 'The plan would not show it.',
        cure: 'Correct its place or the size of the baseboard.',
      }),
    ];
  });
}
