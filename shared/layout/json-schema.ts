/**
 * The rules of the file as JSON Schema 2020-12, for editors that check while one types and for other programs.
 * `npm run schema` writes it to layout.schema.json.
 */
import { z } from 'zod';
import { CheckRecord } from './check-record.ts';
import { BoardPower, LampElectrics, UsualLamp, WireColour } from './electrics.ts';
import { CrossingHead, FigureLamps, VehicleLamps } from './kinds/road-heads.ts';
import { Board, Chain, Colour, Group, Input, Lamp, NamedLamp, Pin } from './outputs.ts';
import { Angle, Place, Road } from './places.ts';
import { LampShow, ProgramRow, When } from './program.ts';
import { Id, LONGEST_FINE_TIME, Name, Percent, Seconds, SecondsOrZero } from './scalars.ts';
import { LAYOUT_SCHEMA_NAME, LAYOUT_VERSION, LayoutSchema, Site } from './schema.ts';
import { Phase, Stage } from './sites.ts';

type Json = Record<string, unknown>;

/** Parts that are written once and referred to by name. */
const PARTS: readonly (readonly [name: string, part: z.ZodType, description?: string])[] = [
  ['id', Id, 'Short name: letters, digits, hyphens.'],
  ['name', Name],
  ['seconds', Seconds, 'More than zero, in hundredths of a second.'],
  ['secondsOrZero', SecondsOrZero, 'In hundredths of a second.'],
  ['percent', Percent],
  ['degrees', Angle, 'Clockwise from up.'],
  ['place', Place],
  ['road', Road],
  ['pin', Pin, '"D5", "A2", or the number of the pin as the board counts it.'],
  ['colour', Colour],
  ['lamp', Lamp],
  ['namedLamp', NamedLamp],
  ['vehicleLamps', VehicleLamps],
  ['figureLamps', FigureLamps],
  ['crossingHead', CrossingHead],
  ['wireColour', WireColour],
  ['lampElectrics', LampElectrics],
  ['usualLamp', UsualLamp],
  ['boardPower', BoardPower],
  ['chain', Chain],
  ['board', Board],
  ['input', Input],
  ['group', Group],
  ['phase', Phase],
  ['stage', Stage],
  ['lampShow', LampShow],
  ['when', When],
  ['row', ProgramRow],
  ['site', Site],
  ['check', CheckRecord],
];

export function layoutJsonSchema(): Json {
  const metadata = z.registry<{ id: string; description?: string }>();
  for (const [id, part, description] of PARTS) metadata.add(part, { id, ...(description && { description }) });
  const whole = z.toJSONSchema(LayoutSchema, { metadata, override: ({ jsonSchema }) => mend(jsonSchema) }) as Json;
  const { $schema, $defs, ...rest } = whole;
  return {
    $schema,
    $id: LAYOUT_SCHEMA_NAME,
    title: `Amberwick layout, version ${LAYOUT_VERSION}`,
    ...rest,
    // With the scale `custom` the ratio is given.
    if: { properties: { scale: { const: 'custom' } } },
    // biome-ignore lint/suspicious/noThenProperty: a keyword of JSON Schema
    then: { required: ['ratio'] },
    $defs,
  };
}

/** What conversion cannot know, or says in a way that programs read differently. */
function mend(schema: Json): void {
  // Each definition is known by its name.
  delete schema.id;
  if (schema.type === 'number' && schema.multipleOf === 0.01) {
    // Many a program divides binary fractions here and would refuse 1.1; so the step is only told.
    delete schema.multipleOf;
    schema.anyOf = [{ maximum: LONGEST_FINE_TIME }, { type: 'integer' }];
  }
  if (schema.type === 'string' && schema.minLength === 1 && schema.maxLength === 60) {
    // Names are read without the blanks around them.
    delete schema.minLength;
    delete schema.maxLength;
    schema.pattern = '^\\s*\\S([\\s\\S]{0,58}\\S)?\\s*$';
  }
}
