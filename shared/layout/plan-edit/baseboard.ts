import type { Layout } from '../schema.ts';
import { type Edited, refused } from '../wiring/edit.ts';
import { settled } from './loose.ts';

/** Sizes that make sense for something in a house, mm. */
export const LEAST = 200;
export const MOST = 20_000;

/** mm. Refused where a site would stand beside it; a road may lead over the edge. */
export function resizeBaseboard(layout: Layout, size: { readonly width: number; readonly depth: number }): Edited {
  const before = settled(layout);
  const { width, depth } = { width: Math.round(size.width), depth: Math.round(size.depth) };
  if (![width, depth].every((it) => it >= LEAST && it <= MOST)) {
    return refused('bad-baseboard', 'baseboard', {
      what: `A baseboard of ${width} by ${depth} mm cannot be drawn.`,
      why: `Each side is from ${LEAST} mm to ${MOST / 1000} m.`,
      cure: 'Write its size in millimetres, such as 1600.',
    });
  }
  const out = before.sites.filter(({ place }) => place && (place.x > width || place.y > depth));
  if (out.length > 0) {
    return refused('off-the-baseboard', 'baseboard', {
      what: `${listed(out.map(({ name }) => name))} would stand beside a baseboard of ${width} by ${depth} mm.`,
      why: 'The plan would not show it.',
      cure: 'Move it nearer to the far left corner first, or write a larger size.',
    });
  }
  return { layout: { ...before, baseboard: { width, depth } }, said: `Made the baseboard ${width} by ${depth} mm.` };
}

function listed(names: readonly string[]): string {
  const [first = '', ...others] = names;
  return others.length === 0 ? first : `${first} and ${others.length} more`;
}
