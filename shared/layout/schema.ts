/**
 * The layout document: everything that the user plans. All times are seconds.
 * What is left out has a default, which the compiler fills in, so that a file
 * holds what its owner wrote and no more.
 */
import { z } from 'zod';
import { CheckRecord } from './check-record.ts';
import { LayoutElectrics } from './electrics.ts';
import { Beacons } from './kinds/beacons.ts';
import { ColourLight } from './kinds/colour-light.ts';
import { Crossing } from './kinds/crossing.ts';
import { Flicker } from './kinds/flicker.ts';
import { Indicators } from './kinds/indicators.ts';
import { LevelCrossing } from './kinds/level-crossing.ts';
import { Pelican } from './kinds/pelican.ts';
import { Shuttle } from './kinds/shuttle.ts';
import { StreetLamps } from './kinds/street-lamps.ts';
import { Board, Group, Input } from './outputs.ts';
import { Baseboard, Road, Underlay } from './places.ts';
import { CustomPractice } from './practice.ts';
import { ProgramSite } from './program.ts';
import { Id, Name } from './scalars.ts';
import { Junction, Zebra } from './sites.ts';

export const LAYOUT_FORMAT = 'amberwick-layout';
export const LAYOUT_VERSION = 1;
/** Name of the JSON Schema of this version, as files bear it; layout.schema.json is the text. */
export const LAYOUT_SCHEMA_NAME = `urn:amberwick:layout:${LAYOUT_VERSION}`;

/**
 * Ids of shared/scale. `N-UK` is 1:148, `N` is 1:160; `O-UK` 1:43.5, `O-NEM` 1:45, `O-US` 1:48. With `custom` the
 * layout says its ratio.
 */
export const Scale = z.enum([
  'OO',
  'HO',
  'O-UK',
  'O-NEM',
  'O-US',
  'S',
  'N-UK',
  'N',
  'TT-3',
  'TT-120',
  'Z',
  '1',
  'custom',
]);

/** Street to model, such as 76.2 for 1:76.2. */
export const Ratio = z
  .number({ error: (issue) => (issue.input === undefined ? undefined : 'bad-ratio') })
  .min(1, { error: 'bad-ratio' })
  .max(1000, { error: 'bad-ratio' });

export const Site = z.discriminatedUnion('kind', [
  Junction,
  Zebra,
  ProgramSite,
  Pelican,
  Crossing,
  LevelCrossing,
  Shuttle,
  ColourLight,
  StreetLamps,
  Indicators,
  Beacons,
  Flicker,
]);

const fields = z.strictObject({
  /** Where editors find the rules of this file; Amberwick itself does without. */
  $schema: z.string().max(400, { error: 'long-name' }).optional(),
  format: z.literal(LAYOUT_FORMAT),
  version: z.literal(LAYOUT_VERSION),
  name: Name,
  /** Free text for the owner. */
  notes: z.string().max(4000, { error: 'long-name' }).optional(),
  scale: Scale,
  /** With the scale `custom`: how many millimetres of the street are one of the layout. */
  ratio: Ratio.optional(),
  /** Id of a practice, such as `uk-today`, or `custom`. */
  practice: Id,
  /** With `custom`: the owner's own rules. */
  custom: CustomPractice.optional(),
  /** Size of the baseboard, mm. */
  baseboard: Baseboard.optional(),
  roads: z.array(Road).optional(),
  underlay: Underlay.optional(),
  electrics: LayoutElectrics.optional(),
  boards: z.array(Board).min(1, { error: 'no-boards' }),
  inputs: z.array(Input).optional(),
  groups: z.array(Group).optional(),
  sites: z.array(Site).min(1, { error: 'no-sites' }),
  /** One for each board whose lamps have been checked. */
  checks: z.array(CheckRecord).optional(),
});

export const LayoutSchema = fields.refine(({ scale, ratio }) => scale !== 'custom' || ratio !== undefined, {
  path: ['ratio'],
  error: 'no-ratio',
});

export type Layout = z.infer<typeof LayoutSchema>;
export type Site = z.infer<typeof Site>;
export type Scale = z.infer<typeof Scale>;
