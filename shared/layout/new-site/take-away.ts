/** A site leaves the layout, and with it the buttons and detectors that nothing else asks. */
import type { Layout } from '../schema.ts';

/** The same layout where there is no such site, or where it is the last one: a layout has at least one. */
export function takeAway(layout: Layout, siteId: string): Layout {
  const gone = layout.sites.find(({ id }) => id === siteId);
  const sites = layout.sites.filter((site) => site !== gone);
  if (gone === undefined || sites.length === 0) return layout;
  const left = { ...layout, sites };
  if (layout.inputs === undefined) return left;
  const others = [sites, layout.groups ?? [], layout.boards].flatMap(textsIn);
  const own = textsIn(gone);
  const inputs = layout.inputs.filter(({ id }) => !own.includes(id) || others.includes(id));
  if (inputs.length > 0) return { ...left, inputs };
  const { inputs: _, ...without } = left;
  return without;
}

/** All texts within a value: among them the ids of the inputs that it names, whatever its kind. */
function textsIn(value: unknown): string[] {
  if (typeof value === 'string') return [value];
  if (typeof value !== 'object' || value === null) return [];
  return Object.values(value).flatMap(textsIn);
}
