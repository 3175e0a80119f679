/** What the lamp check found, lamp by lamp, the latest answer of each. */
import { z } from 'zod';
import { Id, Name } from './scalars.ts';

/** right: the lamp lit as planned; dark: nothing lit; wrong: another lamp lit; dim: too faint; two: it lit with another one. */
export const CheckResult = z.enum(['right', 'dark', 'wrong', 'dim', 'two']);

/** Names a lamp for as long as its site, its head and its colour keep their names; the output may change. */
export const LampKey = z.strictObject({
  /** Absent: an indicator or a sync output. */
  site: Id.optional(),
  /** Head, phase or lamp name. */
  label: z.string().min(1).max(200),
  colour: z.string().max(40),
});

export const CheckedLamp = LampKey.extend({
  /** Output that was lit: `D5`, `A2`, `bit 12`. */
  output: z.string().min(1).max(12),
  result: CheckResult,
  /** Lamps that did light, other than the one asked for. */
  saw: z.array(LampKey).max(8).optional(),
  /** ISO 8601 with zone. */
  at: z.iso.datetime({ offset: true }),
  note: z.string().max(400).optional(),
});

export const CheckRecord = z.strictObject({
  board: Id,
  /** Who answered. */
  by: Name.optional(),
  began: z.iso.datetime({ offset: true }),
  /** Absent while the check is under way. */
  ended: z.iso.datetime({ offset: true }).optional(),
  lamps: z.array(CheckedLamp).max(200),
});

export type CheckResult = z.infer<typeof CheckResult>;
export type LampKey = z.infer<typeof LampKey>;
export type CheckedLamp = z.infer<typeof CheckedLamp>;
export type CheckRecord = z.infer<typeof CheckRecord>;
