/** Timing checks of a junction: what the practice and its own numbers demand. */
import { type Finding, hasErrors } from '../findings/finding.ts';
import { error, note, warning } from '../findings/make.ts';
import { toMs } from '../layout/scalars.ts';
import type { Junction } from '../layout/sites.ts';
import type { Fact, Practice, TimeRule } from '../practice/practice.ts';
import { conflictingStages } from './conflicts.ts';
import { planIntervals } from './intervals.ts';
import { checkOnFoot } from './junction/check-on-foot.ts';
import { seconds } from './names.ts';
import type { JunctionPlan } from './plan.ts';
import { type Need, needs } from './runs.ts';

/** Everything wrong with the plan; stops at conflicting greens, which make the rest meaningless. */
export function checkJunction(site: Junction, plan: JunctionPlan, path: string, practice: Practice): Finding[] {
  const conflicting = conflictingGreens(plan, path);
  if (conflicting.length > 0) return conflicting;
  const times = checkTimes(site, path, practice);
  if (times.some((it) => it.severity === 'error')) return times;
  const short = badIntergreens(site, plan, path, practice.junction.allRed);
  const findings = [
    ...times,
    ...checkOnFoot(site, path, practice),
    ...(short.length > 0 ? short : unmetNeeds(plan, path)),
    ...idlePhases(plan, path),
    ...unlitPhases(site, path),
  ];
  return hasErrors(findings) ? findings : [...findings, ...viewing(site, plan, path, practice)];
}

function conflictingGreens(plan: JunctionPlan, path: string): Finding[] {
  return conflictingStages(plan).map(({ at, pair }) => {
    const [one, other] = pair.map((phase) => plan.phases[phase]?.name);
    return error('conflicting-greens', `${path}.stages[${at}].phases`, {
      what: `${one} and ${other} conflict and are green together in stage ${plan.stages[at]?.id}.`,
      why: 'Traffic from both would meet.',
      cure: 'Take one of them out of the stage, or take their conflict or intergreen out if they do not cross.',
    });
  });
}

/** Times outside their dial are errors, outside the practice warnings. */
function checkTimes(site: Junction, path: string, practice: Practice): Finding[] {
  const { amber, allRed, redWithAmber, green, order, minGreen } = practice.junction;
  const findings = [
    ...checkTime(site.amber, amber, `${path}.amber`),
    ...(site.allRed === 0 ? [] : checkTime(site.allRed, allRed, `${path}.allRed`)),
  ];
  if (redWithAmber !== null) {
    findings.push(...checkTime(site.redWithAmber, redWithAmber, `${path}.redWithAmber`));
  } else if (site.redWithAmber !== undefined) {
    findings.push(
      warning('not-in-practice', `${path}.redWithAmber`, {
        what: 'This practice has no red with amber.',
        why: `Its aspects are ${order.value.join(', ')} (${order.source}). The time is not used.`,
        cure: 'Take the time out, or choose another practice.',
      }),
    );
  }
  site.stages.forEach((stage, index) => {
    const [, greatest] = green.dial.value;
    if (toMs(stage.green) > greatest) {
      findings.push(outsideLimits(`${path}.stages[${index}].green`, toMs(stage.green), green));
    }
  });
  site.phases.forEach((phase, index) => {
    const place = `${path}.phases[${index}]`;
    if (phase.kind === 'pedestrian') {
      findings.push(...checkTime(phase.minGreen, practice.pedestrian.green, `${place}.minGreen`));
      findings.push(...checkTime(phase.clearance, practice.pedestrian.clearance, `${place}.clearance`));
    } else findings.push(...lowMinimum(phase.minGreen, minGreen, `${place}.minGreen`));
  });
  return findings;
}

const PUBLISHED: readonly Fact<unknown>['confidence'][] = ['seen', 'quoted', 'derived'];

/** A minimum green from memory is a default and nothing to be measured by. */
function lowMinimum(value: number | undefined, rule: Fact<number>, path: string): Finding[] {
  if (value === undefined || toMs(value) >= rule.value || !PUBLISHED.includes(rule.confidence)) return [];
  return [
    warning('unusual-time', path, {
      what: `The minimum green is ${seconds(toMs(value))}; this practice has at least ${seconds(rule.value)}.`,
      why: `A shorter one would look hurried there (${rule.source}).`,
      cure: 'Take the time out to get the usual one, or leave it if you like it so.',
    }),
  ];
}

/** A common cycle is looked at where it is set. */
function viewing(site: Junction, plan: JunctionPlan, path: string, practice: Practice): Finding[] {
  const [least, greatest] = practice.viewing.value;
  const cycle = planIntervals(plan).reduce((sum, it) => sum + it.ms, 0);
  if (site.group !== undefined || plan.stages.length < 2 || (cycle >= least && cycle <= greatest)) return [];
  const short = cycle < least;
  return [
    note(short ? 'cycle-short-to-watch' : 'cycle-long-to-watch', `${path}.stages`, {
      what: `${site.name} takes ${seconds(cycle)} for all its stages.`,
      why: `On a layout ${seconds(least)} to ${seconds(greatest)} is neither restless nor dull to watch (${practice.viewing.source}).`,
      cure: `${short ? 'Lengthen' : 'Shorten'} the greens, or leave them if you like them so.`,
    }),
  ];
}

/** One time of the document against its rule; `value` in seconds, absent where the practice's is used. */
export function checkTime(value: number | undefined, rule: TimeRule, path: string): Finding[] {
  if (value === undefined) return [];
  const ms = toMs(value);
  const [least, greatest] = rule.dial.value;
  if (ms < least || ms > greatest) return [outsideLimits(path, ms, rule)];
  if (rule.range === null) return [];
  const [low, high] = rule.range.value;
  if (ms >= low && ms <= high) return [];
  return [
    warning('unusual-time', path, {
      what: `${rule.name} is ${seconds(ms)}; this practice has ${seconds(rule.usual.value)}.`,
      why: `Between ${seconds(low)} and ${seconds(high)} it would look right (${rule.range.source}).`,
      cure: 'Take the time out to get the usual one, or leave it if you like it so.',
    }),
  ];
}

function outsideLimits(path: string, ms: number, rule: TimeRule): Finding {
  const [least, greatest] = rule.dial.value;
  return error('time-outside-limits', path, {
    what: `${rule.name} is ${seconds(ms)}, outside ${seconds(least)} to ${seconds(greatest)}.`,
    why: `The board would refuse it (${rule.dial.source}).`,
    cure: 'Choose a time within these limits.',
  });
}

/** Intergreens of the document that leave no room for amber and red with amber, or have no end. */
function badIntergreens(site: Junction, plan: JunctionPlan, path: string, allRed: TimeRule): Finding[] {
  return Object.entries(site.intergreens ?? {}).flatMap(([from, row]) =>
    Object.keys(row).flatMap((to) => {
      const leaver = plan.phases.findIndex((phase) => phase.id === from);
      const gainer = plan.phases.findIndex((phase) => phase.id === to);
      const given = plan.intergreens[leaver]?.[gainer] ?? 0;
      const amber = plan.phases[leaver]?.amber ?? 0;
      const redWithAmber = plan.phases[gainer]?.redWithAmber ?? 0;
      if (given - amber - redWithAmber > allRed.dial.value[1]) {
        const rest = given - amber - redWithAmber;
        return [outsideLimits(`${path}.intergreens.${from}.${to}`, rest, allRed)];
      }
      if (given >= amber + redWithAmber) return [];
      return [
        error('intergreen-short', `${path}.intergreens.${from}.${to}`, {
          what: `The intergreen of ${seconds(given)} is shorter than ${ending(plan, leaver)} and red with amber, ${seconds(amber + redWithAmber)}.`,
          why: `The next green would begin before the ${ending(plan, leaver)} and the red with amber are over.`,
          cure: `Write at least ${(amber + redWithAmber) / 1000}.`,
        }),
      ];
    }),
  );
}

function ending(plan: JunctionPlan, phase: number): string {
  return plan.phases[phase]?.kind === 'pedestrian' ? 'clearance' : 'amber';
}

function unmetNeeds(plan: JunctionPlan, path: string): Finding[] {
  const unmet = needs(plan).filter((need) => total(plan, need) < need.ms);
  const told = new Set<number>();
  return unmet.flatMap((need) => {
    const stage = need.stages[0] ?? 0;
    // One finding a stage: several phases often ask for the same seconds.
    if (told.has(stage)) return [];
    told.add(stage);
    return [need.intergreen === null ? greenTooShort(plan, need, path) : clearanceTooShort(plan, need, path)];
  });
}

function total(plan: JunctionPlan, need: Need): number {
  return need.stages.reduce((sum, stage) => sum + (plan.stages[stage]?.green ?? 0), 0);
}

function greenTooShort(plan: JunctionPlan, need: Need, path: string): Finding {
  const phase = plan.phases[need.phase];
  return error('green-below-minimum', `${path}.stages[${need.stages[0] ?? 0}].green`, {
    what: `${phase?.name} is green for ${seconds(total(plan, need) + (phase?.minGreen ?? 0) - need.ms)}, less than its minimum of ${seconds(phase?.minGreen ?? 0)}.`,
    why: 'A green that is over at once lets nobody through.',
    cure: "Make the stage's green longer, or write a smaller minGreen for the phase.",
  });
}

function clearanceTooShort(plan: JunctionPlan, need: Need, path: string): Finding {
  const from = plan.phases[need.intergreen?.from ?? 0];
  const to = plan.phases[need.phase];
  return error('intergreen-short', `${path}.stages[${need.stages[0] ?? 0}].green`, {
    what: `This stage is too short for the intergreen of ${seconds(need.intergreen?.ms ?? 0)} from ${from?.name} to ${to?.name}.`,
    why: `${to?.name} would become green before ${from?.name} has cleared.`,
    cure: `Lengthen the stage by ${seconds(need.ms - total(plan, need))}, or shorten that intergreen.`,
  });
}

function idlePhases(plan: JunctionPlan, path: string): Finding[] {
  return plan.phases.flatMap((phase, index) => {
    const greens = plan.stages.filter((stage) => stage.phases.includes(index)).length;
    if (greens > 0 && (greens < plan.stages.length || plan.stages.length === 1)) return [];
    const never = greens === 0;
    return [
      warning(never ? 'phase-never-green' : 'phase-always-green', `${path}.phases[${index}]`, {
        what: never ? `${phase.name} is in no stage.` : `${phase.name} is in every stage.`,
        why: `It would stay ${never ? 'red' : 'green'} for ever.`,
        cure: never ? 'Name it in a stage.' : 'Leave it out of a stage.',
      }),
    ];
  });
}

function unlitPhases(site: Junction, path: string): Finding[] {
  return site.phases.flatMap((phase, index) => {
    const heads = (site.heads ?? []).filter((head) => head.phase === phase.id);
    const lamps = [phase.lamps, ...heads.map((head) => head.lamps)];
    if (lamps.some((it) => it !== undefined && Object.keys(it).length > 0)) return [];
    return [
      warning('phase-without-lamps', `${path}.phases[${index}]`, {
        what: `${phase.name} has no lamps.`,
        why: 'Its time passes, and nothing shows it.',
        cure: 'Give it lamps, or leave it if its traffic has no signal on the layout.',
      }),
    ];
  });
}
