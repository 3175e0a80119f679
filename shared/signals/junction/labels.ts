/** What people call a row of a junction. */
import type { Practice } from '../../practice/practice.ts';
import type { PlannedInterval } from '../intervals.ts';
import type { JunctionPlan } from '../plan.ts';

export function intervalLabel(interval: PlannedInterval, plan: JunctionPlan, practice: Practice): string {
  const { cause, aspects } = interval;
  const who = (aspect: string): string =>
    plan.phases
      .filter((_, phase) => aspects[phase] === aspect)
      .map((phase) => phase.name)
      .join(' and ');
  switch (cause.is) {
    case 'stage':
      return `${plan.stages[cause.stage]?.name} green`;
    case 'amber':
      return `${who('amber')} ${practice.junction.amber.name.toLowerCase()}`;
    case 'red-with-amber':
      return `${who('red-with-amber')} red with amber`;
    case 'clearing':
      return `${who('clearing')} ${practice.pedestrian.clearance.name.toLowerCase()}`;
    case 'clearance':
      return aspects.every((aspect) => aspect === 'red')
        ? practice.junction.allRed.name
        : `Clearance before ${plan.stages[cause.to]?.name}`;
    case 'part':
      return `Change to ${plan.stages[cause.to]?.name}`;
  }
}
