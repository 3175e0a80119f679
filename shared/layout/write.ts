/** From a layout to the text of its file. */
import { LAYOUT_SCHEMA_NAME, type Layout } from './schema.ts';
import { inOrder } from './unknown.ts';

/** What fits on a line of this length stays on one. */
const WIDTH = 120;

/**
 * Stable text: fields in the order of the schema, two spaces a level, a newline
 * at the end. Writing what was read from such a text gives the same text. The file
 * names the schema that it keeps to; fields that are not known are behind the others.
 */
export function writeLayout(layout: Layout): string {
  const named = { ...layout, $schema: layout.$schema ?? LAYOUT_SCHEMA_NAME };
  return writeJson(inOrder(named) ?? named);
}

/** JSON that a person can read: two spaces a level, what fits on a line on one, a newline at the end. */
export function writeJson(value: unknown): string {
  return `${pretty(value, 0, 0)}\n`;
}

/** `taken` is what already stands on the line before the value. */
function pretty(value: unknown, indent: number, taken: number): string {
  const flat = oneLine(value);
  if (typeof value !== 'object' || value === null) return flat;
  if (indent > 0 && taken + flat.length <= WIDTH) return flat;
  const inner = ' '.repeat(indent + 2);
  const close = ' '.repeat(indent);
  if (Array.isArray(value)) {
    const items = value.map((item) => inner + pretty(item, indent + 2, indent + 3));
    return `[\n${items.join(',\n')}\n${close}]`;
  }
  const items = entries(value).map(([key, item]) => {
    const head = `${inner}${JSON.stringify(key)}: `;
    return head + pretty(item, indent + 2, head.length + 1);
  });
  return `{\n${items.join(',\n')}\n${close}}`;
}

function oneLine(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(oneLine).join(', ')}]`;
  if (typeof value !== 'object' || value === null) return JSON.stringify(value) ?? 'null';
  const items = entries(value).map(([key, item]) => `${JSON.stringify(key)}: ${oneLine(item)}`);
  return items.length === 0 ? '{}' : `{ ${items.join(', ')} }`;
}

function entries(value: object): [string, unknown][] {
  return Object.entries(value).filter(([, item]) => item !== undefined);
}
