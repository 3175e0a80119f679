/**
 * A site given row by row, for everything that has no kind of its own yet.
 * Rows are those of firmware/PROTOCOL.md, with names in place of numbers.
 */
import { z } from 'zod';
import { NamedLamp } from './outputs.ts';
import { Count, Id, Name, SecondsOrZero } from './scalars.ts';
import { siteFields } from './sites.ts';

export const LampShow = z.enum(['dark', 'lit', 'flash', 'alternate']);

/** Lamp states by lamp id; lamps that are not named are dark. */
const Show = z.record(Id, LampShow);

const inputs = z.array(Id);

/** `inputs` are ids of the layout's inputs; `outOf256` is the chance. */
export const When = z.discriminatedUnion('is', [
  z.strictObject({
    is: z.enum(['demand', 'noDemand', 'active', 'inactive', 'changed', 'allActive', 'notAll']),
    inputs,
  }),
  z.strictObject({ is: z.literal('chance'), outOf256: Count.max(255, { error: 'not-a-byte' }) }),
]);

const labelled = { label: Id.optional() };

export const ProgramRow = z.discriminatedUnion('do', [
  z.strictObject({ do: z.literal('after'), ...labelled, dial: Id, show: Show }),
  z.strictObject({ do: z.literal('until'), ...labelled, least: Id, when: When, show: Show }),
  z.strictObject({ do: z.literal('untilMax'), ...labelled, least: Id, most: Id, when: When, show: Show }),
  z.strictObject({
    do: z.literal('extend'),
    ...labelled,
    least: Id,
    gap: Id,
    most: Id,
    detectors: inputs,
    opposing: inputs,
    show: Show,
  }),
  z.strictObject({ do: z.literal('random'), ...labelled, low: Id, high: Id, show: Show }),
  z.strictObject({ do: z.literal('sync'), ...labelled, least: Id, offset: Id, show: Show }),
  z.strictObject({ do: z.literal('jump'), ...labelled, when: When, to: Id }),
  z.strictObject({ do: z.literal('clear'), ...labelled, inputs }),
  z.strictObject({ do: z.literal('latch'), ...labelled, inputs }),
]);

export const ProgramDial = z.strictObject({
  id: Id,
  name: Name.optional(),
  /** Seconds. */
  value: SecondsOrZero,
  /** Limits when nudged, seconds. Default: a tenth of the value, and ten times the value. */
  least: SecondsOrZero.optional(),
  greatest: SecondsOrZero.optional(),
});

export const ProgramSite = z.strictObject({
  kind: z.literal('program'),
  ...siteFields,
  lamps: z.array(NamedLamp).min(1, { error: 'no-lamps' }),
  dials: z.array(ProgramDial),
  /** Dials that time flashing lamps. Default: 0.5 s each. */
  flash: z.strictObject({ on: Id, off: Id }).optional(),
  /** What the site shows after a fault, and when asked to be safe. Default: dark. */
  fault: Show.optional(),
  safe: Show.optional(),
  /** Pairs of lamps that are never both other than dark. */
  conflicts: z.array(z.tuple([Id, Id])).optional(),
  /** Label of the row to begin with. Default: the first row. */
  start: Id.optional(),
  rows: z.array(ProgramRow).min(1, { error: 'no-rows' }),
});

export type LampShow = z.infer<typeof LampShow>;
export type When = z.infer<typeof When>;
export type ProgramRow = z.infer<typeof ProgramRow>;
export type ProgramDial = z.infer<typeof ProgramDial>;
export type ProgramSite = z.infer<typeof ProgramSite>;
