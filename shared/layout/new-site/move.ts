/** A site goes to another place of the baseboard. */
import type { Layout } from '../schema.ts';

/** `by` in mm; kept on the baseboard. The same layout where the site has no place. */
export function moveSite(layout: Layout, siteId: string, by: { readonly x: number; readonly y: number }): Layout {
  const within = (value: number, most: number | undefined): number =>
    Math.round(Math.max(0, most === undefined ? value : Math.min(most, value)));
  let isMoved = false;
  const sites = layout.sites.map((site) => {
    if (site.id !== siteId || site.place === undefined) return site;
    const x = within(site.place.x + by.x, layout.baseboard?.width);
    const y = within(site.place.y + by.y, layout.baseboard?.depth);
    if (x === site.place.x && y === site.place.y) return site;
    isMoved = true;
    return { ...site, place: { ...site.place, x, y } };
  });
  return isMoved ? { ...layout, sites } : layout;
}
