/** From what a person says of a street to offsets, a chart and a changed layout. */
import type { Finding } from '../../shared/findings/finding.ts';
import type { Layout } from '../../shared/layout/schema.ts';
import { distancesAlong, fromFirst } from '../../shared/scale/distances.ts';
import { ratioIn } from '../../shared/scale/ratios.ts';
import { applyWave } from '../../shared/signals/progression/apply.ts';
import { planStreet } from '../../shared/signals/progression/layout.ts';
import { searchOffsets, type Wave } from '../../shared/signals/progression/search.ts';
import { type TimeDistance, timeDistance } from '../../shared/signals/progression/time-distance.ts';

export interface StreetWish {
  /** Ids of junctions, in their order along the street. */
  readonly sites: readonly string[];
  /** Metres a second. */
  readonly speed: number;
  /** mm on the layout, from each junction to the next; null to measure between their places. */
  readonly legs: readonly number[] | null;
  /** s; null for the longest that one of them has. */
  readonly cycle: number | null;
}

export interface StreetPlan {
  /** Null when there is an error among the findings. */
  readonly found: { readonly wave: Wave; readonly chart: TimeDistance; readonly layout: Layout } | null;
  readonly findings: readonly Finding[];
}

export function planWave(layout: Layout, { sites, speed, legs, cycle }: StreetWish): StreetPlan {
  const measured = legs ? { metres: fromFirst(legs, ratioIn(layout)), findings: [] } : distancesAlong(layout, sites);
  if (measured.metres === null) return { found: null, findings: measured.findings };
  const { street, findings } = planStreet(layout, {
    sites,
    distances: measured.metres,
    speed: { out: speed, back: speed },
    ...(cycle === null ? {} : { cycle }),
  });
  if (street === null) return { found: null, findings };
  const wave = searchOffsets(street);
  const applied = applyWave(layout, street, wave);
  return {
    found: { wave, chart: timeDistance(street, wave), layout: applied.layout },
    findings: [...findings, ...applied.findings],
  };
}

/** Junctions of the layout from left to right, and from the far side to the near one. */
export function junctionsInOrder(layout: Layout): { readonly id: string; readonly name: string }[] {
  return layout.sites
    .filter(({ kind }) => kind === 'junction')
    .sort((a, b) => (a.place?.x ?? 0) - (b.place?.x ?? 0) || (a.place?.y ?? 0) - (b.place?.y ?? 0))
    .map(({ id, name }) => ({ id, name }));
}
