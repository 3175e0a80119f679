/** From a junction of the document to a program, its dials and lamps. */
import { hasErrors } from '../findings/finding.ts';
import { toMs } from '../layout/scalars.ts';
import type { Junction } from '../layout/sites.ts';
import type { Practice } from '../practice/practice.ts';
import type { Program } from '../table/model.ts';
import { checkJunction } from './checks.ts';
import { extensionDials, type PlannedDial, planDials } from './dials.ts';
import { interstage, planIntervals } from './intervals.ts';
import { checkWays } from './junction/check-ways.ts';
import { junctionInputs } from './junction/inputs.ts';
import { intervalLabel } from './junction/labels.ts';
import { everywhere, greenPairs, junctionLamps, statesOf } from './junction/lamps.ts';
import { checkJunctionLimits } from './junction/limits.ts';
import { orderAfter } from './junction/order.ts';
import { junctionRows } from './junction/rows.ts';
import { intervalsOf, sectionsOf } from './junction/sections.ts';
import { ruleDial } from './kinds/lamp-parts.ts';
import type { JunctionPlan } from './plan.ts';
import { resolveJunction } from './resolve.ts';
import { type CommonCycle, holdable, type Planned } from './site.ts';

export function planJunction(site: Junction, path: string, practice: Practice, common: CommonCycle | null): Planned {
  const { plan, findings } = resolveJunction(site, path, practice);
  if (plan === null) return { plan: null, findings };
  findings.push(...checkWays(site, plan, path, common !== null));
  if (!hasErrors(findings)) findings.push(...checkJunction(site, plan, path, practice));
  if (hasErrors(findings)) return { plan: null, findings };

  const sections = sectionsOf(plan);
  const intervals = intervalsOf(sections);
  const lamps = junctionLamps(site, path);
  const inputs = junctionInputs(site, plan, path);
  const planned = planDials(plan, intervals, practice);
  const dials: PlannedDial[] = [...planned.dials];
  const dialIndex = (dial: PlannedDial): number => {
    const known = dials.findIndex((it) => it.id === dial.id);
    return known >= 0 ? known : dials.push(dial) - 1;
  };
  const extensions = plan.stages.map((stage) => {
    const made = extensionDials(plan, stage, planned.dials);
    return made === null ? { gap: 0, maximum: 0 } : { gap: dialIndex(made.gap), maximum: dialIndex(made.maximum) };
  });
  const flash = flashDials(plan, practice).map(dialIndex);
  const sync = common === null ? null : dialIndex(offsetDial(common, site));

  const rows = junctionRows({
    plan,
    sections,
    states: (interval) => statesOf(lamps, interval.aspects, practice.pedestrian.shows.value),
    label: (interval) => intervalLabel(interval, plan, practice),
    dial: (interval) => planned.of[intervals.indexOf(interval)] ?? 0,
    extension: (stage) => extensions[plan.stages.indexOf(stage)] ?? { gap: 0, maximum: 0 },
    input: (id) => inputs.findIndex((it) => it.id === id),
    sync,
  });
  const program: Program = {
    name: `Junction, ${plan.phases.length} phases, ${plan.stages.length} stages`,
    lamps: lamps.map((lamp) => `${plan.phases[lamp.phase]?.id} ${lamp.colour}`),
    dials: dials.map(({ id, min, max }) => ({ name: id, min, max })),
    inputs: inputs.map((input) => input.id),
    flash: flash[0] === undefined || flash[1] === undefined ? null : { on: flash[0], off: flash[1] },
    fault: everywhere(plan, lamps, practice.junction.fault.value),
    safe: everywhere(plan, lamps, practice.junction.safe.value),
    conflicts: greenPairs(plan, lamps),
    rows: rows.map((it) => it.row),
  };
  findings.push(...checkJunctionLimits(site.name, path, program));
  if (hasErrors(findings)) return { plan: null, findings };
  return {
    plan: {
      program,
      start: 0,
      offset: common === null ? toMs(site.startDelay ?? 0) : firstGreen(plan, common, site),
      dials,
      lamps: lamps.map(({ label, colour, output, path: place }) => ({ label, colour, output, path: place })),
      inputs,
      rows: rows.map(({ label }) => ({ label })),
      cycle: longestCycle(plan),
    },
    findings,
  };
}

/** Only where the figures flash. */
function flashDials(plan: JunctionPlan, practice: Practice): PlannedDial[] {
  const { shows, flashOn, flashOff } = practice.pedestrian;
  const flashes = shows.value === 'flashing-green' || shows.value === 'flashing-red';
  if (!flashes || plan.phases.every((phase) => phase.kind !== 'pedestrian')) return [];
  return [ruleDial('flash-on', flashOn, undefined), ruleDial('flash-off', flashOff, undefined)];
}

/**
 * On a common cycle the last stage lasts until the site's point of the cycle,
 * where the change to the first stage begins. The board starts with the first
 * stage's green, which then lasts longer once, so that the first cycle is in step.
 */
function offsetDial(common: CommonCycle, site: Junction): PlannedDial {
  const value = toMs(site.offset ?? 0);
  const max = holdable(Math.max(common.greatest, value));
  return { id: 'offset', name: 'Offset in the common cycle', min: 0, max, value };
}

function firstGreen(plan: JunctionPlan, common: CommonCycle, site: Junction): number {
  const change = interstage(plan, plan.stages.length - 1).reduce((sum, it) => sum + it.ms, 0);
  return holdable((toMs(site.offset ?? 0) + change) % common.cycle);
}

/** All stages, those that vehicles extend at their maximum; null where the junction waits for somebody. */
function longestCycle(plan: JunctionPlan): number | null {
  const waits = plan.stages.slice(0, -1).some((_, at) => orderAfter(plan, at).waits);
  if (waits) return null;
  const extra = plan.stages.map(({ green, extend }) => Math.max(0, (extend?.maximum ?? 0) - green));
  return [...planIntervals(plan).map((it) => it.ms), ...extra].reduce((sum, ms) => sum + ms, 0);
}
