/** From what a person types of the traffic to a request for greens. */
import type { Junction, Stage } from '../../shared/layout/sites.ts';
import type { SplitRequest } from '../../shared/signals/flows/split.ts';
import { SATURATION, type Stream } from '../../shared/signals/flows/webster.ts';

/** Phases whose traffic counts: people on foot have their own least times. */
export function vehiclePhases(site: Junction): Junction['phases'] {
  return site.phases.filter(({ kind, id }) => kind !== 'pedestrian' && stageOf(site, id) !== null);
}

/** Each phase counts in the longest of its stages: greens that it gets elsewhere come on top. */
function stageOf(site: Junction, phase: string): Stage | null {
  return site.stages
    .filter(({ phases }) => phases.includes(phase))
    .reduce<Stage | null>((longest, stage) => (longest && longest.green >= stage.green ? longest : stage), null);
}

/** `flows`: vehicles an hour by phase; `cycle` in seconds, null for the one that the traffic asks for. */
export function requestOf(site: Junction, flows: ReadonlyMap<string, number>, cycle: number | null): SplitRequest {
  const stages = site.stages.map((stage): Stream[] =>
    vehiclePhases(site)
      .filter(({ id }) => stageOf(site, id) === stage)
      .map(({ id }) => ({ flow: flows.get(id) ?? 0, saturation: SATURATION.value })),
  );
  return { stages, ...(cycle === null ? {} : { cycle }) };
}

/** A number of vehicles; null for anything else. */
export function readFlow(text: string): number | null {
  return /^\s*\d{1,5}\s*$/.test(text) ? Number(text) : null;
}
