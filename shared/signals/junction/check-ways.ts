/** Checks of the ways through the stages: what is never called, never left, never served. */
import type { Finding } from '../../findings/finding.ts';
import { error, note, warning } from '../../findings/make.ts';
import { toMs } from '../../layout/scalars.ts';
import type { Junction } from '../../layout/sites.ts';
import { GREATEST_GAP } from '../dials.ts';
import { seconds } from '../names.ts';
import type { JunctionPlan } from '../plan.ts';
import { orderAfter, reachable } from './order.ts';
import { usedDemands } from './rows.ts';

/** `synced`: the site is on a common cycle. */
export function checkWays(site: Junction, plan: JunctionPlan, path: string, synced: boolean): Finding[] {
  const uncalled = neverCalled(plan, path);
  return [
    ...uncalled,
    ...(uncalled.length > 0 ? [] : [...neverLeft(plan, path), ...neverReached(plan, path)]),
    ...neverServed(site, plan, path),
    ...forgotten(site, plan, path),
    ...extensions(site, plan, path),
    ...restUnused(site, plan, path),
    ...(synced ? lastStage(plan, path) : []),
  ];
}

function neverCalled(plan: JunctionPlan, path: string): Finding[] {
  return plan.stages.flatMap((stage, index) => {
    const callers = (stage.calledBy ?? stage.phases).flatMap((phase) => plan.phases[phase]?.demand ?? []);
    if (!stage.skip || callers.length > 0) return [];
    return [
      error('stage-never-called', `${path}.stages[${index}].skip`, {
        what: `Stage ${stage.name} is skipped without demand, and nothing asks for it.`,
        why: 'It would never come.',
        cure: 'Give one of its phases a demand: a button or a detector. Or do not skip it.',
      }),
    ];
  });
}

function neverLeft(plan: JunctionPlan, path: string): Finding[] {
  return plan.stages.flatMap((stage, index) => {
    const { waits, followers } = orderAfter(plan, index);
    if (!waits || followers.length > 0) return [];
    return [
      error('stage-never-left', `${path}.stages[${index}]`, {
        what: `Stage ${stage.name} would last for ever.`,
        why: 'All other stages are skipped without demand, and no demand calls one of them from here.',
        cure: 'Do not skip one of the others, or give their phases demands of their own.',
      }),
    ];
  });
}

function neverReached(plan: JunctionPlan, path: string): Finding[] {
  const found = reachable(plan);
  return plan.stages.flatMap((stage, index) => {
    if (found.has(index)) return [];
    return [
      error('stage-never-reached', `${path}.stages[${index}]`, {
        what: `Stage ${stage.name} can never come.`,
        why: 'In every stage before it, the phases that call it are green already.',
        cure: 'Do not skip it, or let another phase call it.',
      }),
    ];
  });
}

/** Demands that nothing answers, or that nothing waits for. */
function neverServed(site: Junction, plan: JunctionPlan, path: string): Finding[] {
  const used = new Set([...usedDemands(plan), ...plan.stages.flatMap((stage) => stage.extend?.detectors ?? [])]);
  return site.phases.flatMap((phase, index) => {
    const stages = plan.stages.filter((stage) => stage.phases.includes(index));
    return (phase.demand ?? []).flatMap((id, at) => {
      const place = `${path}.phases[${index}].demand[${at}]`;
      if (stages.length === 0) return [unserved(phase.name, id, place)];
      if (used.has(id)) return [];
      return [
        note('demand-not-needed', place, {
          what: `Nothing waits for the demand "${id}" of ${phase.name}.`,
          why: 'Its stages come in every cycle, asked for or not.',
          cure: 'Skip one of its stages without demand, or leave it so.',
        }),
      ];
    });
  });
}

function unserved(name: string, id: string, place: string): Finding {
  return error('demand-never-served', place, {
    what: `${name} asks for green with "${id}" and is in no stage.`,
    why: 'Who presses or waits there would wait for ever.',
    cure: 'Name the phase in a stage.',
  });
}

/** One input for two phases: served with the one, it is forgotten for the other. */
function forgotten(site: Junction, plan: JunctionPlan, path: string): Finding[] {
  const told = new Set<string>();
  return site.phases.flatMap((phase, index) =>
    (phase.demand ?? []).flatMap((id, at) => {
      const other = plan.phases.findIndex((it, to) => to !== index && it.demand?.includes(id));
      if (other < 0 || told.has(id)) return [];
      const apart = plan.stages.some(
        (stage) => stage.phases.includes(other) !== stage.phases.includes(index) && stage.skip === true,
      );
      if (!apart) return [];
      told.add(id);
      return [
        error('demand-never-served', `${path}.phases[${index}].demand[${at}]`, {
          what: `"${id}" asks for ${phase.name} and for ${plan.phases[other]?.name}, which do not always go together.`,
          why: 'When one of them has had its green the demand counts as served, and the other goes without.',
          cure: 'Give each its own input, or put both in the same stages.',
        }),
      ];
    }),
  );
}

function extensions(site: Junction, plan: JunctionPlan, path: string): Finding[] {
  return plan.stages.flatMap((stage, index) => {
    const { extend } = stage;
    const place = `${path}.stages[${index}].extend`;
    if (extend === undefined) return [];
    if (extend.detectors.length === 0) {
      return [
        error('no-detectors', place, {
          what: `Stage ${stage.name} is extended by vehicles, and it has no detectors.`,
          why: 'Nothing would ever extend it.',
          cure: 'Give its phases a demand, name detectors, or take the extension out.',
        }),
      ];
    }
    if (extend.gap > GREATEST_GAP) {
      const own = site.stages[index]?.extend?.gap !== undefined;
      return [
        error('time-outside-limits', own ? `${place}.gap` : `${path}.gap`, {
          what: `The gap is ${seconds(extend.gap)}, above ${seconds(GREATEST_GAP)}.`,
          why: 'Controllers extend by at most that (UK controller handbook 667/HB/32900, p. 88-89).',
          cure: 'Write a shorter gap, such as 1.5.',
        }),
      ];
    }
    const elsewhere = extend.detectors.find((id) =>
      plan.phases.some((phase, at) => phase.demand?.includes(id) && !stage.phases.includes(at)),
    );
    if (elsewhere !== undefined) {
      return [
        error('demand-never-served', `${place}.detectors`, {
          what: `"${elsewhere}" extends stage ${stage.name} and asks for a phase that is not in it.`,
          why: 'The end of the stage would forget that demand.',
          cure: 'Name only detectors of the phases of the stage.',
        }),
      ];
    }
    if (extend.maximum < extend.gap) {
      return [
        error('maximum-below-gap', `${place}.maximum`, {
          what: `The maximum of ${seconds(extend.maximum)} is below the gap of ${seconds(extend.gap)}.`,
          why: 'Each green would end as if traffic had been cut off, and call its stage again, for ever.',
          cure: 'Lengthen the maximum or shorten the gap.',
        }),
      ];
    }
    if (extend.maximum >= stage.green) return [];
    return [
      warning('maximum-below-green', `${place}.maximum`, {
        what: `The maximum of ${seconds(extend.maximum)} is below the green of ${seconds(stage.green)}.`,
        why: 'The green always lasts its time, so traffic gets no extension once somebody waits.',
        cure: `Write more than ${toMs(stage.green / 1000) / 1000}.`,
      }),
    ];
  });
}

function restUnused(site: Junction, plan: JunctionPlan, path: string): Finding[] {
  if (site.rest === undefined || plan.rest == null) return [];
  const others = plan.stages.filter((stage, index) => !stage.skip && index !== plan.rest);
  if (others.length === 0) return [];
  return [
    warning('not-used', `${path}.rest`, {
      what: 'The junction never waits, so the stage to wait in is not used.',
      why: `${others.map((stage) => stage.name).join(', ')} comes without demand.`,
      cure: 'Skip all other stages without demand, or take it out.',
    }),
  ];
}

/** The last stage is the one that waits for the common cycle. */
function lastStage(plan: JunctionPlan, path: string): Finding[] {
  const index = plan.stages.length - 1;
  const stage = plan.stages[index];
  if (stage === undefined || (!stage.skip && stage.extend === undefined)) return [];
  return [
    error('last-stage-not-fixed', `${path}.stages[${index}]`, {
      what: `On a common cycle the last stage is neither skipped nor extended; ${stage.name} is.`,
      why: 'In the last stage the junction waits for its point of the cycle.',
      cure: 'Put another stage last, or take the junction out of the group.',
    }),
  ];
}
