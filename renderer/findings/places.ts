/** Which findings belong to which site and which dial. */
import type { Finding } from '../../shared/findings/finding.ts';
import type { Layout } from '../../shared/layout/schema.ts';

/** Findings whose path lies within a site of the layout. */
export function findingsOfSite(findings: readonly Finding[], site: number): Finding[] {
  const start = `sites[${site}]`;
  return findings.filter(({ path }) => path === start || path.startsWith(`${start}.`));
}

/**
 * The dial (its id) that a path of the layout sets, or null. Dials are named
 * by shared/signals: `green-1`, `amber`, `all-red` ..., `flash-on`.
 */
export function dialOfPath(layout: Layout, path: string): string | null {
  const place = /^sites\[(\d+)\]\.(.+)$/.exec(path);
  const site = layout.sites[Number(place?.[1])];
  const rest = place?.[2] ?? '';
  if (!site) return null;
  const index = Number(/\[(\d+)\]/.exec(rest)?.[1]);
  if (site.kind === 'junction') {
    if (/^stages\[\d+\]\.green$/.test(rest)) return `green-${site.stages[index]?.id}`;
    const direct: Readonly<Record<string, string>> = {
      amber: 'amber',
      redWithAmber: 'red-with-amber',
      allRed: 'all-red',
      offset: 'offset',
    };
    return direct[rest] ?? null;
  }
  if (site.kind === 'zebra') return rest === 'on' ? 'flash-on' : rest === 'off' ? 'flash-off' : null;
  if (site.kind === 'program') return /^dials\[\d+\](\.|$)/.test(rest) ? (site.dials[index]?.id ?? null) : null;
  // All other kinds name their dials as the file names the times.
  return /^[a-z][A-Za-z]*$/.test(rest) ? rest.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`) : null;
}

/** Findings of one dial of a site. */
export function findingsOfDial(
  findings: readonly Finding[],
  layout: Layout | null,
  site: number,
  dial: string,
): Finding[] {
  if (!layout) return [];
  return findingsOfSite(findings, site).filter(({ path }) => dialOfPath(layout, path) === dial);
}
