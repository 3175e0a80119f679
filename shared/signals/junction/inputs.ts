/** The inputs of a junction that its rows speak of. */
import type { Junction } from '../../layout/sites.ts';
import type { JunctionPlan } from '../plan.ts';
import { usedDemands } from './rows.ts';

export interface PlannedInput {
  readonly id: string;
  /** Where it is first named. */
  readonly path: string;
}

/** In the order in which the file names them; demands that nothing waits for are left out. */
export function junctionInputs(site: Junction, plan: JunctionPlan, path: string): PlannedInput[] {
  const used = new Set([...usedDemands(plan), ...plan.stages.flatMap((stage) => stage.extend?.detectors ?? [])]);
  const named = [
    ...site.phases.flatMap((phase, index) =>
      (phase.demand ?? []).map((id, at) => ({ id, path: `${path}.phases[${index}].demand[${at}]` })),
    ),
    ...site.stages.flatMap((stage, index) =>
      (stage.extend?.detectors ?? []).map((id, at) => ({
        id,
        path: `${path}.stages[${index}].extend.detectors[${at}]`,
      })),
    ),
  ];
  return named.filter((it, index) => used.has(it.id) && named.findIndex((other) => other.id === it.id) === index);
}
