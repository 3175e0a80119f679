/** What a split has to say: what it cannot do, and what it bent to fit. */
import type { Finding } from '../../findings/finding.ts';
import { error, note, warning } from '../../findings/make.ts';
import { LONGEST_FINE_TIME } from '../../layout/scalars.ts';
import type { Layout } from '../../layout/schema.ts';
import type { Junction } from '../../layout/sites.ts';
import { seconds } from '../names.ts';
import type { JunctionPlan } from '../plan.ts';
import { saturationDegree } from './delay.ts';
import type { SharedGreens } from './share.ts';
import { FLAT_DELAY, LEAST_CYCLE, PRACTICAL_CYCLE, type Stream, type Webster } from './webster.ts';

export function otherCount(name: string, path: string, stages: number, flows: number): Finding {
  return error('flows-and-stages', `${path}.stages`, {
    what: `${name} has ${stages} stages, and there are flows for ${flows}.`,
    why: 'Each stage gets its share of the cycle by the traffic that it lets through.',
    cure: 'Give one flow for each stage, in their order.',
  });
}

export function badCycle(path: string): Finding {
  return error('bad-cycle', path, {
    what: 'The cycle is not a time that a junction can have.',
    why: `It is in seconds, above 0 and up to ${LONGEST_FINE_TIME}.`,
    cure: 'Write a cycle such as 60.',
  });
}

export function cycleTooShort(name: string, path: string, cycle: number, shortest: number): Finding {
  return error('cycle-too-short', `${path}.stages`, {
    what: `A cycle of ${seconds(cycle)} is too short for ${name}.`,
    why: `Its changes and minimum greens need ${seconds(shortest)}.`,
    cure: `Choose ${seconds(shortest)} or more, or shorten the minimum greens of its phases.`,
  });
}

export function spareLeft(name: string, path: string, spare: number): Finding {
  return note('spare-left', `${path}.stages`, {
    what: `The greens leave ${seconds(spare)} of the cycle to spare.`,
    why: `${name} follows the beat of another board; were its clock the slower, it would miss beats. Its last stage lasts until the beat.`,
    cure: 'Nothing need be done.',
  });
}

/** Greens that are longer than their traffic asks for, because shorter ones are not allowed. */
export function bent(plan: JunctionPlan, path: string, { wanted, greens }: SharedGreens): Finding[] {
  return plan.stages.flatMap((stage, index) => {
    const [asked, got] = [wanted[index] ?? 0, greens[index] ?? 0];
    if (got < asked + 1000) return [];
    return [
      note('minimum-kept', `${path}.stages[${index}].green`, {
        what: `${stage.name} would get ${seconds(Math.max(0, Math.round(asked / 100) * 100))} by its traffic, and gets ${seconds(got)}.`,
        why: 'Shorter greens would break a minimum green or an intergreen of the junction.',
        cure: 'Nothing need be done; with a longer cycle the shares come out as the traffic asks.',
      }),
    ];
  });
}

/** How the cycle that is watched differs from the one with the least delay. */
export function watched(
  name: string,
  path: string,
  cycle: number,
  { optimum }: Webster,
  { greens, effective, wanted }: SharedGreens,
  traffic: readonly (readonly Stream[])[],
): Finding[] {
  const findings: Finding[] = [];
  const [low, high] = FLAT_DELAY.value;
  const asked = seconds(Math.round(cycle * 100) * 10);
  const best = seconds(Math.round(optimum * 10) * 100);
  if (cycle < low * optimum || cycle > high * optimum) {
    findings.push(
      note('cycle-off-optimum', path, {
        what: `The cycle of ${asked} is far from the optimum of ${best}.`,
        why: `On a street the delay hardly changes from ${low} to ${high} of the optimum (${FLAT_DELAY.source}).`,
        cure: 'Nothing need be done where it is for watching.',
      }),
    );
  }
  if (optimum > PRACTICAL_CYCLE.value[1] || cycle < LEAST_CYCLE.value || cycle > PRACTICAL_CYCLE.value[1]) {
    findings.push(
      warning('cycle-unusual', path, {
        what: `${name} has a cycle of ${asked}, and its traffic asks for ${best}.`,
        why: `Streets have ${PRACTICAL_CYCLE.value.join(' to ')} s, at least ${LEAST_CYCLE.value} s (${LEAST_CYCLE.source}).`,
        cure: 'Choose another cycle, or smaller flows.',
      }),
    );
  }
  const over = greens.findIndex((green, index) => {
    const real = (green - (wanted[index] ?? 0) + (effective[index] ?? 0)) / 1000;
    return (traffic[index] ?? []).some((stream) => !(saturationDegree(stream, cycle, real) <= 1) && stream.flow > 0);
  });
  if (over >= 0) {
    findings.push(
      note('queues-grow', `${path}.stages[${over}].green`, {
        what: 'At this cycle more traffic comes than its green lets through.',
        why: 'The shorter the cycle, the more of it is lost to the changes; on a street the queues would grow.',
        cure: 'Nothing need be done where it is for watching; a longer cycle would carry the traffic.',
      }),
    );
  }
  return findings;
}

/** Stages whose green is not what is set, but the least of it. */
export function variable(plan: JunctionPlan, path: string): Finding[] {
  return plan.stages.flatMap((stage, index) => {
    if (stage.skip !== true && stage.extend === undefined) return [];
    return [
      note('green-varies', `${path}.stages[${index}]`, {
        what: `${stage.name} is lengthened or skipped by its traffic.`,
        why: 'Its share of the cycle is what it gets when it runs and nobody lengthens it.',
        cure: 'Nothing need be done; for fixed greens let the stage run by time alone.',
      }),
    ];
  });
}

export function otherCycle(layout: Layout, site: Junction, path: string, cycle: number): Finding[] {
  const common = layout.groups?.find((group) => group.id === site.group);
  if (common === undefined || common.cycle === cycle) return [];
  return [
    warning('split-other-cycle', `${path}.group`, {
      what: `${site.name} is on the common cycle of ${common.cycle} s, and its greens would fit one of ${cycle} s.`,
      why: 'On a common cycle the last stage lasts until the cycle is over; a longer need misses it.',
      cure: `Leave the cycle out to get greens for ${common.cycle} s, or change the common cycle.`,
    }),
  ];
}
