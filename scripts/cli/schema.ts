/** `amberwick schema`: the rules of the layout file as JSON Schema, for editors that check while one types. */
import { layoutJsonSchema } from '../../shared/layout/json-schema.ts';
import { writeJson } from '../../shared/layout/write.ts';
import type { Report } from './output.ts';

export function schema(): Report {
  const made = layoutJsonSchema();
  return { exit: 0, data: { schema: made }, text: [writeJson(made).trimEnd()] };
}
