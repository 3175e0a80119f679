/** SVG as strings: elements, escaping, numbers. */

type Value = string | number | null | undefined | false;

/** One element; attributes that are null, undefined or false are left out, numbers are rounded to hundredths. */
export function element(name: string, attributes: Readonly<Record<string, Value>>, ...children: string[]): string {
  const written = Object.entries(attributes).flatMap(([key, value]) =>
    value === null || value === undefined || value === false ? [] : [` ${key}="${escaped(valueText(value))}"`],
  );
  const inside = children.join('');
  return `<${name}${written.join('')}${inside === '' ? '/>' : `>${inside}</${name}>`}`;
}

export const group = (attributes: Readonly<Record<string, Value>>, ...children: string[]): string =>
  element('g', attributes, ...children);

/** A line of text; `y` is the middle of its small letters. */
export function words(
  content: string,
  place: { readonly x: number; readonly y: number; readonly class?: string; readonly anchor?: 'middle' | 'end' },
  ...inside: string[]
): string {
  const { x, y, anchor } = place;
  const attributes = { class: place.class, x, y, dy: '0.35em', 'text-anchor': anchor };
  return element('text', attributes, ...inside, escaped(content));
}

/** What a pointer that rests there is told. */
export const hint = (content: string): string => element('title', {}, escaped(content));

export function escaped(text: string): string {
  // Control characters are not allowed in XML at all, not even escaped.
  const clean = [...text].filter((it) => (it.codePointAt(0) ?? 0) >= 32).join('');
  return clean.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');
}

/** Hundredths of a pixel are more than anyone sees. */
export function round(value: number): number {
  return Math.round(value * 100) / 100;
}

function valueText(value: string | number): string {
  return typeof value === 'number' ? String(round(value)) : value;
}

/** A path through points. */
export function through(points: readonly (readonly [number, number])[], close = false): string {
  const steps = points.map(([x, y], index) => `${index === 0 ? 'M' : 'L'}${round(x)} ${round(y)}`);
  return `${steps.join(' ')}${close ? ' Z' : ''}`;
}
